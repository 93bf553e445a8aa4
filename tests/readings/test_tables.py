"""Files as they come: encodings, marks, junk, workbooks; and what is no table, told and not guessed."""

from __future__ import annotations

import zipfile
from pathlib import Path
from xml.sax.saxutils import escape

import pytest
from readings.folder import air, fail, logger, read, season, times

from reportgen.problems import SeasonError
from reportgen.readings import read_season

PLAIN = "Time,Temp\n2025-12-01 00:00,4.5\n2025-12-01 00:10,-0.25\n"
EXPECTED = ["2025-11-30 23:00:00", "2025-11-30 23:10:00"]


@pytest.mark.parametrize(
    "raw",
    [
        PLAIN.encode(),
        PLAIN.encode("utf-8-sig"),
        PLAIN.encode("utf-16"),
        PLAIN.encode("utf-16-le"),
        PLAIN.encode("utf-16-be"),
        PLAIN.replace("\n", "\r\n").encode(),
        PLAIN.replace("\n", "\r").encode(),
        PLAIN.rstrip("\n").encode(),
        PLAIN.replace(",", ";").encode(),
        PLAIN.replace(",", "\t").encode(),
        PLAIN.replace(",", ";").replace(".", ",").encode(),
        PLAIN.replace("4.5", '"4,5"').replace("-0.25", '"-0,25"').encode(),
        PLAIN.replace("-0.25", "\u22120.25").encode(),
        PLAIN.replace("4.5", "4.5 °C").replace("-0.25", "-0.25 °C").encode("cp1252"),
        ("Serial;0815\nHouse; a;b;c\n\n" + PLAIN.replace(",", ";")).encode(),
        PLAIN.replace("\n", ",,\n").encode(),
        PLAIN.replace(",", " , ").encode(),
        PLAIN.replace("2025-12-01 00:10", "\n,,\n2025-12-01 00:10").encode(),
        b"\0\0\0\0" + PLAIN.encode(),
    ],
)
def test_the_same_readings_whatever_the_program_wrote(tmp_path: Path, raw: bytes) -> None:
    """Encodings, line ends, delimiters, decimal marks, quotes, junk, trailing cells: the same two readings."""
    readings = read(tmp_path, raw)
    assert air(readings).values.tolist() == [4.5, -0.25]
    assert times(air(readings)) == EXPECTED
    assert (readings.files[0].rows_read, readings.files[0].rows_used) == (2, 2)


def test_repeated_header_and_summary_lines_are_rows_that_are_no_reading(tmp_path: Path) -> None:
    """A header in the middle and a line of averages are counted among the rows read, and set aside."""
    text = PLAIN + "Time,Temp\n2025-12-01 00:20,5\nAverage,4.9\n"
    account = read(tmp_path, text).files[0]
    assert (account.rows_read, account.rows_used, dict(account.set_aside)) == (5, 3, {"not a reading": 2})


def test_thousands_marks(tmp_path: Path) -> None:
    """1,234.5 beside points and 1.234,5 beside commas are one thousand and some; 1'234.5 too."""
    power = {"measures": {"heater_power": {"column": "P"}}, "where": "elsewhere"}
    for text in (
        'Time,P\n2025-12-01 00:00,"1,234.5"\n2025-12-01 00:10,900.5\n',
        "Time;P\n2025-12-01 00:00;1.234,5\n2025-12-01 00:10;900,5\n",
        "Time;P\n2025-12-01 00:00;1'234.5\n2025-12-01 00:10;900.5\n",
    ):
        channel = read(tmp_path, text, **power).channel("bench", "heater_power")
        assert channel is not None
        assert channel.values.tolist() == [1234.5, 900.5]


@pytest.mark.parametrize("word", ["N/A", "--", "null", "NaN", "#N/A", "-"])
def test_a_word_for_no_reading_is_no_fault(tmp_path: Path, word: str) -> None:
    """A probe that was unplugged for most of the winter: its readings are used, the words are counted as no reading."""
    rows = [f"2025-12-{1 + n // 24:02d} {n % 24:02d}:00,{word if n < 70 else n / 10}" for n in range(96)]
    readings = read(tmp_path, "\n".join(["Time,Temp", *rows]))
    assert air(readings).values.tolist() == [n / 10 for n in range(70, 96)]
    assert readings.files[0].rows_read == 96 and sum(readings.files[0].set_aside.values()) == 70


@pytest.mark.parametrize("form", ["{}-", "({})", "\u2212{}", "-{}"])
@pytest.mark.parametrize("mark", [".", ","])
def test_numbers_below_zero_as_programs_write_them(tmp_path: Path, form: str, mark: str) -> None:
    """1.5-, (1.5) and the true minus sign: a column must not keep its warm readings only."""
    rows = [f"2025-12-01 {n:02d}:00;{form.format('1.5').replace('.', mark)}" for n in range(12)]
    rows += [f"2025-12-01 {n:02d}:00;{'2.5'.replace('.', mark)}" for n in range(12, 24)]
    assert air(read(tmp_path, "\n".join(["Time;Temp", *rows]))).values.tolist() == [-1.5] * 12 + [2.5] * 12


def test_signs_beside_numbers_are_told(tmp_path: Path) -> None:
    """A tenth of the cells set aside is said, with three of them; words for no reading and summary lines are not."""
    cells = {3: "7.1*", 4: "5.9 (door open)", 5: "ERR"}
    rows = [
        f"2025-12-{1 + n // 24:02d} {n % 24:02d}:00,{cells.get(n % 30, '--' if n % 30 == 6 else 5.5)}"
        for n in range(300)
    ]
    found = read(tmp_path, "\n".join(["Time,Temp", *rows, *["Average,warm"] * 20]))
    assert [(w.slug, w.line, w.column) for w in found.warnings] == [("some-not-a-number", 5, "Temp")]
    assert found.warnings[0].found == "30 of 320 cells such as '7.1*', '5.9 (door open)', 'ERR'"
    clean = [row.replace("*", "").replace(" (door open)", "").replace("ERR", "--") for row in rows]
    assert not read(tmp_path, "\n".join(["Time,Temp", *clean])).warnings


POWER = {"measures": {"heater_power": {"column": "P"}, "air_temperature": {"column": "T"}}, "where": "elsewhere"}


@pytest.mark.parametrize(
    ("head", "form", "decimal"),
    [
        ("Time;T;P", "{t};{c};{w:,}", ","),  # 7,1 beside 1.234: the point parts thousands
        ("Time,T,P", '{t},{c},"{w:,}"', "."),  # 7.1 beside "1,234"
        ("Time,T,P", '{t},,"{w:,}"', "."),  # whole numbers below 1000 beside many of three digits behind the mark
        ("Time;T;P", "{t};;{w:,}", ","),
    ],
)
def test_thousands_without_decimals(tmp_path: Path, head: str, form: str, decimal: str) -> None:
    """1,234 W is no watt and a bit where the file's decimals are written otherwise, or where no cell of many has one
    digit or two behind that mark; nor is 1.234 W where decimals are commas."""
    watts = [12 if n % 3 else 1000 + 7 * n for n in range(120)]
    lines = [
        form.format(t=f"2025-12-{1 + n // 24:02d} {n % 24:02d}:00", c=f"{5 + n % 7}.5", w=w)
        for n, w in enumerate(watts)
    ]
    if decimal == ",":
        lines = [line.translate(str.maketrans(",.", ".,")) for line in lines]
    readings = read(tmp_path, "\n".join([head, *lines]), **POWER)
    channel = readings.channel("bench", "heater_power")
    assert channel is not None and channel.values.tolist() == watts
    air_of = readings.channel("bench", "air_temperature")
    assert air_of is not None and (not len(air_of.values) or air_of.values.iloc[0] == 5.5)


def test_three_decimals_in_every_cell_are_decimals(tmp_path: Path) -> None:
    """A program that writes 8.312 and 9.000 writes three decimals in all cells: no thousands, with either mark."""
    for mark, part in ((".", ","), (",", ";")):
        lines = [f"2025-12-01 {n:02d}:00{part}{8 + n / 7:.3f}".replace(".", mark) for n in range(24)]
        channel = air(read(tmp_path, "\n".join([f"Time{part}Temp", *lines])))
        assert channel.values.tolist() == [round(8 + n / 7, 3) for n in range(24)]


def test_a_declared_mark_of_decimals_has_the_last_word(tmp_path: Path) -> None:
    """1.234 with decimal = "." is 1.234, whatever stands beside it."""
    lines = [f"2025-12-{1 + n // 24:02d} {n % 24:02d}:00,{'1.234' if n % 2 else '12'}" for n in range(96)]
    channel = air(read(tmp_path, "\n".join(["Time,Temp", *lines]), decimal="."))
    assert sorted(set(channel.values.tolist())) == [1.234, 12.0]


def test_decimal_commas_between_commas_are_refused(tmp_path: Path) -> None:
    """12,5 without quotes in a comma file cannot be told from two cells: it is asked about, never read as 12."""
    text = "Time,Temp,Hum\n2025-12-01 00:00,12,5,80,1\n2025-12-01 00:10,12,6,80,2\n"
    (problem,) = fail(tmp_path, text).problems
    assert problem.slug == "too-many-cells"
    assert problem.found == "rows of 5 cells under a header of 3, as decimal commas make"


def test_a_quote_that_never_closes_spoils_its_own_line_only(tmp_path: Path) -> None:
    """The rows after a stray quote are read."""
    text = 'Time,Temp,Note\n2025-12-01 00:00,4.5,"open\n2025-12-01 00:10,-0.25,\n2025-12-01 00:20,1,\n'
    assert air(read(tmp_path, text)).values.tolist() == [4.5, -0.25, 1.0]


@pytest.mark.parametrize(
    ("raw", "slug"),
    [
        (b"", "empty-file"),
        (b"\n \n\0\0", "empty-file"),
        (bytes(range(256)) * 8, "not-a-table"),
        (b"PK\x03\x04 packed", "not-a-table"),
        (b"x" * 5_000_000, "missing-column"),
        (b"Time,Temp\n", "empty-column"),
        (b"Time,Temp,Temp\n2025-12-01 00:00,1,2\n", "same-column-twice"),
        (b"Time,Temp\nsoon,1\nlater 5,2\n", "unreadable-time"),
        (b"Time,Temp\n2025-12-01 00:00,warm\n2025-12-01 00:10,cold\n", "not-a-number"),
    ],
)
def test_what_is_no_table_of_readings_is_told(tmp_path: Path, raw: bytes, slug: str) -> None:
    """Empty, packed, binary, one endless line, no number: a problem (or a warning) of that name, never a traceback."""
    try:
        told = [warning.slug for warning in read(tmp_path, raw).warnings]
    except SeasonError as error:
        told = [problem.slug for problem in error.problems]
    assert slug in told


def test_an_unknown_encoding_is_told(tmp_path: Path) -> None:
    """The encoding in season.toml must exist."""
    assert [p.slug for p in fail(tmp_path, PLAIN, encoding="no-such-code").problems] == ["unknown-encoding"]


def test_declared_marks_overrule(tmp_path: Path) -> None:
    """skip_rows, delimiter and decimal of season.toml go before what would be worked out."""
    text = "Time|Temp\nnot this header\nTime;Temp\n2025-12-01 00:00;4,5\n"
    channel = air(read(tmp_path, text, skip_rows=2, delimiter=";", decimal=","))
    assert channel.values.tolist() == [4.5]


def workbook(path: Path, rows: list[list[str | float]], styles: tuple[int, ...] = ()) -> None:
    """A minimal XLSX by the letter of ECMA-376: numbers as they are, text inline; style 1 is a date and time."""
    cells = "".join(
        f'<row r="{n}">'
        + "".join(_cell(value, styles[k] if k < len(styles) else 0) for k, value in enumerate(row))
        + "</row>"
        for n, row in enumerate(rows, 1)
    )
    main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    rel = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    pack = "http://schemas.openxmlformats.org/package/2006"
    types = "application/vnd.openxmlformats-officedocument.spreadsheetml"
    parts = {
        "[Content_Types].xml": f'<Types xmlns="{pack}/content-types"><Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Override PartName="/xl/workbook.xml" ContentType="{types}.sheet.main+xml"/>'
        f'<Override PartName="/xl/worksheets/sheet1.xml" ContentType="{types}.worksheet+xml"/>'
        f'<Override PartName="/xl/styles.xml" ContentType="{types}.styles+xml"/></Types>',
        "_rels/.rels": f'<Relationships xmlns="{pack}/relationships"><Relationship Id="r1" '
        f'Type="{rel}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{main}" xmlns:r="{rel}"><sheets><sheet name="Data" sheetId="1" '
        'r:id="r1"/></sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{pack}/relationships"><Relationship Id="r1" '
        f'Type="{rel}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="r2" Type="{rel}/styles" '
        'Target="styles.xml"/></Relationships>',
        "xl/styles.xml": f'<styleSheet xmlns="{main}"><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="22"/>'
        "</cellXfs></styleSheet>",
        "xl/worksheets/sheet1.xml": f'<worksheet xmlns="{main}"><sheetData>{cells}</sheetData></worksheet>',
    }
    with zipfile.ZipFile(path, "w") as packed:
        for name, text in parts.items():
            packed.writestr(name, '<?xml version="1.0" encoding="UTF-8"?>' + text)


def _cell(value: str | float, style: int) -> str:
    if isinstance(value, str):
        return f'<c t="inlineStr"><is><t>{escape(value)}</t></is></c>'
    return f'<c s="{style}"><v>{value!r}</v></c>'


@pytest.mark.parametrize(
    ("when", "styles"),
    [
        ([45992.0, 45992.0 + 10 / 1440], (1, 0)),  # real dates
        ([45992.0, 45992.006944444], (0, 0)),  # the same as bare day numbers
        (["2025-12-01 00:00", "2025-12-01 00:10"], (0, 0)),  # text
        (["01.12.2025 00:00", "01.12.2025 00:10"], (0, 0)),
    ],
)
def test_workbooks_with_dates_day_numbers_or_text(
    tmp_path: Path, when: list[str | float], styles: tuple[int, ...]
) -> None:
    """A workbook gives the same readings however its times are kept. Day number 45992 is 1 December 2025: the 1900
    system counts 25569 days to 1970-01-01 (ECMA-376 Part 1, 18.17.4.1), and 45992 − 25569 = 20423 = 2025-12-01."""
    workbook(tmp_path / "a.xlsx", [["House of X", ""], ["Time", "Temp"], [when[0], 4.5], [when[1], -0.25]], styles)
    channel = air(read_season(season(tmp_path, logger(files=("a.xlsx",)))))
    assert channel.values.tolist() == [4.5, -0.25]
    assert times(channel) == EXPECTED


def test_a_workbook_without_that_sheet_names_those_it_has(tmp_path: Path) -> None:
    """`sheet` must be one of the workbook's."""
    workbook(tmp_path / "a.xlsx", [["Time", "Temp"], ["2025-12-01 00:00", 4.5]])
    with pytest.raises(SeasonError) as caught:
        read_season(season(tmp_path, logger(files=("a.xlsx",), sheet="Sheet9")))
    (problem,) = caught.value.problems
    assert (problem.slug, problem.todo) == ("missing-sheet", "correct `sheet` in season.toml; the workbook has: Data")


def test_a_link_that_leads_out_is_refused(tmp_path: Path) -> None:
    """A pattern may match a link to a file elsewhere: it is told, not followed."""
    inside = tmp_path / "season"
    inside.mkdir()
    (tmp_path / "elsewhere.csv").write_text(PLAIN)
    (inside / "a-1.csv").symlink_to(tmp_path / "elsewhere.csv")
    with pytest.raises(SeasonError) as caught:
        read_season(season(inside, logger(files=("a-*.csv",))))
    assert [problem.slug for problem in caught.value.problems] == ["path-leads-out"]


def test_a_million_rows_of_one_stamp(tmp_path: Path) -> None:
    """A logger that hangs on one stamp: one reading is used, all others are repeated."""
    text = "Time,Temp\n" + "2025-12-01 00:00,4.5\n" * 1_000_000
    account = read(tmp_path, text).files[0]
    assert (account.rows_used, dict(account.set_aside)) == (1, {"repeated": 999_999})


def test_nothing_is_written_into_the_folder(tmp_path: Path) -> None:
    """After reading, the folder holds what it held."""
    read(tmp_path, PLAIN)
    assert [path.name for path in tmp_path.iterdir()] == ["a.csv"]
