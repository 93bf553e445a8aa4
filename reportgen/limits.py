"""How much a season folder may hold: every limit with its reason, in one place.

A limit is far above what one winter of one house can fill, and low enough that a folder at it is reviewed within a
minute of computing and 1.5 GB of memory (tests/studies/bombs.py tries the larger ones, one by one). Past it there is
a problem in words; nothing is cut off in silence. `reportgen explain too-much` lists them.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class Limit:
    """`most` of what `of` names in the plural; `why` says what it is measured against."""

    most: int
    of: str
    why: str

    @property
    def words(self) -> str:
        """As it is printed: at most 500 rows."""
        return f"at most {self.most:,} {self.of}"


SEASON_FILE = Limit(
    most=500_000,
    of="bytes in season.toml",
    why="the whole of a large season is 20 000; every key is looked at several times",
)
FOLDER_ENTRIES = Limit(
    most=100_000,
    of="files and folders below a pattern with **",
    why="a winter's folder holds tens; a pattern at the root of a disk would never end",
)
LOGGER_FILES = Limit(
    most=1_000,
    of="files of one logger",
    why="a file a day for a year is 366",
)
LOGGERS = Limit(
    most=40,
    of="loggers",
    why="a small greenhouse has two to ten; every pair at one place is compared",
)
CROPS = Limit(
    most=100,
    of="crops with a table or in a book",
    why="a large kitchen garden grows forty; each crop has its rows on several pages",
)
FILE_BYTES = Limit(
    most=150_000_000,
    of="bytes in one logger file",
    why="half a year at ten seconds is 95 000 000; a file is held in memory twice",
)
FILE_ROWS = Limit(
    most=2_000_000,
    of="lines in one logger file",
    why="half a year at ten seconds is 1 570 000",
)
SEASON_ROWS = Limit(
    most=4_000_000,
    of="rows in all logger files together",
    why="ten loggers at one reading a minute over half a year are 2 620 000",
)
LINE_BYTES = Limit(
    most=10_000_000,
    of="bytes in one line",
    why="a line of a logger is a few hundred; a longer one is no table",
)
HEADER = Limit(
    most=20_000,
    of="characters in the header of a logger file",
    why="three hundred names of sixty letters",
)
COLUMNS = Limit(
    most=300,
    of="columns in one file",
    why="a logger has one to thirty, a book seven",
)
UNPACKED_BYTES = Limit(
    most=300_000_000,
    of="bytes in a workbook once unpacked",
    why="a full sheet of readings unpacks to 60 000 000; a packed file can claim a thousand times its size",
)
SHEET_CELLS = Limit(
    most=8_000_000,
    of="cells from the first to the last used one of a sheet",
    why="half a year at one minute with twelve columns is 3 150 000; a sheet is held whole, empty cells too",
)
BOOK_BYTES = Limit(
    most=5_000_000,
    of="bytes in a book, a meter or a list of deliveries",
    why="a thousand long rows are 200 000",
)
BOOK_ROWS = Limit(
    most=5_000,
    of="rows in a book",
    why="twenty pickings a day over half a year are 3 640",
)
BOOK_CELL = Limit(
    most=5_000,
    of="characters in one cell of a book",
    why="a long note is 500; a cell is printed as it stands",
)
DIARY_ROWS = Limit(
    most=500,
    of="rows in the diary",
    why="two a day over half a year are 364; each change is set against every other and drawn",
)
STORY_BYTES = Limit(
    most=100_000,
    of="bytes in story.md",
    why="fifteen thousand words; it stands on one page",
)
STORY_PARAGRAPH = Limit(
    most=10_000,
    of="characters between two empty lines of story.md",
    why="a long paragraph is 2 000; the reader of Markdown looks through each many times",
)
STORY_LEVELS = Limit(
    most=20,
    of="levels of lists and quotes within each other in story.md",
    why="three are hard to read; the reader of Markdown goes down into each",
)
STORY_BRACKETS = Limit(
    most=1_000,
    of="[ and < in story.md",
    why="a link or a picture each; the reader of Markdown looks for the end of each",
)
STORY_FIGURES = Limit(
    most=200,
    of="figures quoted by {{ }} in story.md",
    why="a story of ten pages quotes fifty; for each that is not there the nearest of thousands is looked for",
)
PICTURES = Limit(
    most=60,
    of="pictures in story.md",
    why="all are carried in one page, up to 300 000 bytes each",
)
PICTURE_BYTES = Limit(
    most=100_000_000,
    of="bytes in one picture",
    why="a photograph of a good telephone is 15 000 000",
)
PICTURE_PIXELS = Limit(
    most=120_000_000,
    of="pixels in one picture",
    why="a good telephone takes 50 or 108 million; each is four bytes of memory once opened",
)
PICTURES_PIXELS = Limit(
    most=1_000_000_000,
    of="pixels in all pictures of the story together",
    why="eighty photographs of 12 million; opening them takes the time",
)
REVIEWS = Limit(
    most=2_000,
    of="reviews gathered at once",
    why="fifty gardens over ten winters are 500; each stands in the pictures and tables of a group",
)
GATHERED_FILES = Limit(
    most=100_000,
    of="files and folders below a folder of reviews",
    why="a built site has a hundred files, five hundred of them are 50 000; a whole disk would never end",
)
GATHERED_LEVELS = Limit(
    most=8,
    of="folders within each other below a folder of reviews",
    why="a site's review lies two deep, in a folder of a year in a folder of a garden five",
)
REVIEW_BYTES = Limit(
    most=5_000_000,
    of="bytes in a review.json, once unpacked",
    why="that of the sample season, with all that can be kept, has 230 000",
)
REVIEW_TABLES = Limit(
    most=100_000,
    of="tables { } in a review.json",
    why="that of the sample season has 1 200; what is read takes many times the memory of what is written",
)
REVIEW_LIST = Limit(
    most=2_000,
    of="entries in one list of a review.json",
    why="a diary has at most 500 rows, and a frost of every night of a year would be 366",
)
ZIP_BYTES = Limit(
    most=50_000_000,
    of="bytes in a ZIP of a shared review",
    why="that of the sample season has 500 000; the photographs of a story make it ten times larger",
)
ZIP_MEMBERS = Limit(
    most=2_000,
    of="files in one ZIP",
    why="a shared review has a hundred; a ZIP of fifteen of them is within it",
)
ZIP_LIST_BYTES = Limit(
    most=2_000_000,
    of="bytes in a ZIP's own list of its files",
    why="2 000 long names take 600 000; the list is held in memory before anything can be looked at",
)
ZIP_UNPACKED = Limit(
    most=200_000_000,
    of="bytes unpacked from one ZIP with the ZIPs in it",
    why="fifteen shared reviews with photographs are 75 000 000; a packed file can claim a thousand times its size",
)
ZIP_LEVELS = Limit(
    most=2,
    of="ZIPs within each other",
    why="what a shared folder is fetched as, with a member's ZIP in it",
)
GROUP_FILE = Limit(
    most=200_000,
    of="bytes in group.toml",
    why="a hundred things with ten words each are 20 000, beside a long story",
)
