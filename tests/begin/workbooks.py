"""Writes small workbooks by the letter of their standards: ODS (OASIS OpenDocument 1.2) and XLSX (ECMA-376)."""

from __future__ import annotations

import datetime as dt
import zipfile
from collections.abc import Mapping, Sequence
from pathlib import Path
from xml.sax.saxutils import escape, quoteattr

Cell = str | float | dt.datetime | dt.date | dt.time | None
Sheets = Mapping[str, Sequence[Sequence[Cell]]]
_OASIS = "urn:oasis:names:tc:opendocument:xmlns"


def ods(path: Path, sheets: Sheets) -> None:
    """An ODS with real dates (office:date-value) and times (office:time-value)."""
    tables = "".join(
        f"<table:table table:name={quoteattr(name)}>"
        + "".join(f"<table:table-row>{''.join(map(_ods_cell, row))}</table:table-row>" for row in rows)
        + "</table:table>"
        for name, rows in sheets.items()
    )
    spaces = " ".join(f'xmlns:{name}="{_OASIS}:{name}:1.0"' for name in ("office", "table", "text"))
    content = (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document-content {spaces} office:version="1.2"><office:body>'
        f"<office:spreadsheet>{tables}</office:spreadsheet></office:body></office:document-content>"
    )
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    entry = f'<manifest:file-entry manifest:full-path="/" manifest:media-type="{kind}"/>'
    manifest = f'<manifest:manifest xmlns:manifest="{_OASIS}:manifest:1.0">{entry}</manifest:manifest>'
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("mimetype", kind)
        packed.writestr("content.xml", content)
        packed.writestr("META-INF/manifest.xml", manifest)


def _ods_cell(value: Cell) -> str:
    if value is None:
        return "<table:table-cell/>"
    if isinstance(value, dt.datetime | dt.date):
        kind = f'office:value-type="date" office:date-value="{value.isoformat()}"'
    elif isinstance(value, dt.time):
        kind = f'office:value-type="time" office:time-value="PT{value.hour:02d}H{value.minute:02d}M{value.second:02d}S"'
    elif isinstance(value, str):
        kind = 'office:value-type="string"'
    else:
        kind = f'office:value-type="float" office:value="{value!r}"'
    return f"<table:table-cell {kind}><text:p>{escape(str(value))}</text:p></table:table-cell>"


def xlsx(path: Path, sheets: Sheets) -> None:
    """An XLSX with text inline and dates and times as day numbers in a date format."""
    main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    rel = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    pack = "http://schemas.openxmlformats.org/package/2006"
    types = "application/vnd.openxmlformats-officedocument.spreadsheetml"
    names = list(enumerate(sheets, 1))
    overrides = "".join(
        f'<Override PartName="/xl/worksheets/sheet{n}.xml" ContentType="{types}.worksheet+xml"/>' for n, _ in names
    )
    listed = "".join(f'<sheet name={quoteattr(name)} sheetId="{n}" r:id="r{n}"/>' for n, name in names)
    links = "".join(
        f'<Relationship Id="r{n}" Type="{rel}/worksheet" Target="worksheets/sheet{n}.xml"/>' for n, _ in names
    )
    parts = {
        "[Content_Types].xml": f'<Types xmlns="{pack}/content-types"><Default Extension="rels" ContentType="'
        'application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" '
        f'ContentType="{types}.sheet.main+xml"/><Override PartName="/xl/styles.xml" '
        f'ContentType="{types}.styles+xml"/>{overrides}</Types>',
        "_rels/.rels": f'<Relationships xmlns="{pack}/relationships"><Relationship Id="r1" '
        f'Type="{rel}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{main}" xmlns:r="{rel}"><sheets>{listed}</sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{pack}/relationships">{links}<Relationship '
        f'Id="styles" Type="{rel}/styles" Target="styles.xml"/></Relationships>',
        # number formats of ECMA-376 Part 1, 18.8.30: 0 general, 22 date and time, 14 date, 21 time
        "xl/styles.xml": f'<styleSheet xmlns="{main}"><cellXfs count="4"><xf numFmtId="0"/><xf numFmtId="22"/>'
        '<xf numFmtId="14"/><xf numFmtId="21"/></cellXfs></styleSheet>',
    }
    for n, name in names:
        rows = "".join(f'<row r="{k}">{"".join(map(_xlsx_cell, row))}</row>' for k, row in enumerate(sheets[name], 1))
        parts[f"xl/worksheets/sheet{n}.xml"] = f'<worksheet xmlns="{main}"><sheetData>{rows}</sheetData></worksheet>'
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, text in parts.items():
            packed.writestr(name, '<?xml version="1.0" encoding="UTF-8"?>' + text)


def _xlsx_cell(value: Cell) -> str:
    if value is None:
        return "<c/>"
    if isinstance(value, str):
        return f'<c t="inlineStr"><is><t>{escape(value)}</t></is></c>'
    if isinstance(value, dt.datetime):
        return f'<c s="1"><v>{_day_number(value)!r}</v></c>'
    if isinstance(value, dt.date):
        return f'<c s="2"><v>{_day_number(dt.datetime.combine(value, dt.time()))!r}</v></c>'
    if isinstance(value, dt.time):
        return f'<c s="3"><v>{(value.hour * 3600 + value.minute * 60 + value.second) / 86400!r}</v></c>'
    return f"<c><v>{value!r}</v></c>"


def _day_number(moment: dt.datetime) -> float:
    """Days since 30 December 1899, as the 1900 date system counts from March 1900 on (ECMA-376 Part 1, 18.17.4.1)."""
    return (moment - dt.datetime(1899, 12, 30)) / dt.timedelta(days=1)
