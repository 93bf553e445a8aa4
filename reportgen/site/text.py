"""The grower's Markdown as safe HTML: nothing that runs, nothing that is fetched, no heading above the page's own."""

from __future__ import annotations

import re

import markdown
import nh3
from markupsafe import Markup

TAGS = {
    *("p", "br", "hr", "em", "strong", "del", "sub", "sup", "code", "pre", "blockquote"),
    *("h3", "h4", "h5", "h6", "ul", "ol", "li", "dl", "dt", "dd"),
    *("a", "img", "table", "thead", "tbody", "tr", "th", "td", "div"),
}
GONE = {"script", "style", "iframe", "object", "svg", "math", "form", "template"}  # with all that is inside
ATTRIBUTES = {
    "a": {"href", "title", "id", "class"},
    "img": {"src", "alt", "title", "width", "height"},
    "th": {"class", "scope"},
    "td": {"class"},
    "li": {"id"},
    "sup": {"id"},
    "div": {"class"},
    "ol": {"start"},
}
CLASSES = {"footnote", "footnote-ref", "footnote-backref", "num", "center"}
PICTURE = re.compile(r"data:image/(png|jpeg|gif|webp);base64,[A-Za-z0-9+/=]+")
LINK = re.compile(r"(https?://|mailto:|#)", re.I)
SCHEME = re.compile(r"[a-z][a-z0-9+.-]*:", re.I)
FOOTNOTE = re.compile(r"fn(ref)?\d*:[\w-]+")
ALIGNED = re.compile(r'<(t[hd]) style="text-align: (left|center|right);">')
ALIGN = {"left": "", "center": ' class="center"', "right": ' class="num"'}
HEADING = re.compile(r"<(/?)h[12](?=[\s>])")


def safe_html(source: str) -> Markup:
    """Markdown (with tables and footnotes) as HTML that may stand on a page as it is."""
    raw = markdown.markdown(source, extensions=["tables", "footnotes", "sane_lists", "def_list"], output_format="html")
    raw = ALIGNED.sub(lambda m: f"<{m[1]}{ALIGN[m[2]]}>", raw)
    raw = HEADING.sub(r"<\1h3", raw)
    return Markup(
        nh3.clean(
            raw,
            tags=TAGS,
            clean_content_tags=GONE,
            attributes=ATTRIBUTES,
            attribute_filter=_allowed,
            url_schemes={"http", "https", "mailto", "data"},
            link_rel="noopener noreferrer",
        )
    )


def _allowed(tag: str, name: str, value: str) -> str | None:
    """The attribute's value, or None where it may not stand."""
    if name == "class":
        kept = [word for word in value.split() if word in CLASSES]
        return " ".join(kept) or None
    if name == "id":
        return value if FOOTNOTE.fullmatch(value) else None
    if name == "src":
        return value if PICTURE.fullmatch(value) else None
    if name == "href":
        return value if _link(value) else None
    return value


def _link(value: str) -> bool:
    """A web address, a mail address, a place on the page, or a file below it."""
    plain = re.sub(r"[\x00-\x20]", "", value)
    if LINK.match(plain):
        return True
    return not SCHEME.match(plain) and not plain.startswith(("/", "\\")) and ".." not in plain
