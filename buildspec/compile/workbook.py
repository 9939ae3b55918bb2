"""Tables → XLSX. Nothing of a spec is ever a formula or a link; the same tables give the same bytes."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import xlsxwriter

from buildspec.compile.csvfile import runs
from buildspec.drawings.metrics import text_width, wrapped
from buildspec.model import Job, Practice
from buildspec.worksheets import Cell, Column, Formula, Workbook, Worksheet, currency_form, plain

OPTIONS = {
    "in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False,
}  # fmt: skip
PAPER = {"A4": 9, "Letter": 1}
"""ECMA-376 part 1, 18.3.1.63: code of a paper size."""
LONGEST = 32767
"""Characters that a cell holds."""
LINE = 255
"""Characters that the head or foot of a printed page holds, codes included."""
NARROWEST, WIDEST, ARROW = 5.0, 32.0, 3.0
"""Widths of a column, and of a filter's arrow beside the head, in digits."""
PADDING = 0.9
"""Of both sides of a cell, in digits."""
LINE_PT = 15.0
"""Height of a row of one line; some programs do not set the height of rows that wrap by themselves."""
NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What XML 1.0 cannot hold."""
WHEN = "1980-01-01T00:00:00Z"
BORN = re.compile(rb"(<dcterms:(?:created|modified)[^>]*>)[^<]*")


def data(book: Workbook, job: Job, practice: Practice) -> bytes:
    """The file of a workbook."""
    stream = io.BytesIO()
    made = xlsxwriter.Workbook(stream, OPTIONS)
    made.set_properties(
        {"title": f"{clean(job.number)} {clean(job.title)}", "author": clean(practice.shop.name)}
    )
    for sheet in book.sheets:
        fill(made, made.add_worksheet(sheet.name), sheet)
        page(made.get_worksheet_by_name(sheet.name), sheet, job, practice)
    made.close()
    return fixed(stream.getvalue())


def fixed(packed: bytes) -> bytes:
    """The same archive without a clock, and stored, as compressors differ between machines."""
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(packed)) as old, zipfile.ZipFile(stream, "w") as new:
        for name in old.namelist():
            info = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            info.create_system, info.external_attr = 3, 0o644 << 16
            new.writestr(info, BORN.sub(rb"\g<1>" + WHEN.encode(), old.read(name)))
    return stream.getvalue()


def fill(book: Any, made: Any, sheet: Worksheet) -> None:
    """Head, rows, and below an empty line what stands under the table."""
    head = book.add_format(
        {"bold": True, "text_wrap": True, "valign": "top", "bottom": 2, "bg_color": "#E6E9EC"}
    )
    widths = [width(sheet, number) for number in range(len(sheet.columns))]
    for number, column in enumerate(sheet.columns):
        made.set_column(number, number, widths[number])
        made.write_string(0, number, column.head, head)
    made.set_row(0, height(widths, [column.head for column in sheet.columns]))
    formats: dict[tuple[object, ...], Any] = {}
    for row, cells in enumerate(sheet.rows, 1):
        made.set_row(row, height(widths, cells))
        write_row(book, made, formats, row, cells, sheet.columns, {"border": 4})
    for row, cells in enumerate(sheet.foot, len(sheet.rows) + 2):
        made.set_row(row, height(widths, cells))
        write_row(book, made, formats, row, cells, sheet.columns, {"bold": True})


def write_row(
    book: Any,
    made: Any,
    formats: dict[tuple[object, ...], Any],
    row: int,
    cells: Sequence[Cell],
    columns: Sequence[Column],
    look: Mapping[str, object],
) -> None:
    """One row; `formats` keeps the formats of the file, which counts them."""
    for number, (cell, column) in enumerate(zip(cells, columns, strict=True)):
        asked = {**look, **cell_look(cell, column)}
        key = tuple(asked.items())
        if key not in formats:
            formats[key] = book.add_format(asked)
        write(made, row, number, cell, formats[key])


def cell_look(cell: Cell, column: Column) -> dict[str, object]:
    """How a cell is set. Text that would run stays text even when somebody edits and leaves it."""
    value = cell.value if isinstance(cell, Formula) else cell
    if isinstance(value, str):
        return {"valign": "top", "text_wrap": True, "quote_prefix": runs(value)}
    if isinstance(value, tuple):
        return {"valign": "top", "num_format": currency_form(value)}
    return {"valign": "top", "num_format": column.form or "General"}


def write(made: Any, row: int, column: int, cell: Cell, look: Any) -> None:
    if cell is None or cell == "":
        made.write_blank(row, column, None, look)
    elif isinstance(cell, str):
        made.write_string(row, column, clean(cell), look)
    elif isinstance(cell, Formula):
        made.write_formula(row, column, f"={cell.text}", look, plain(cell.value))
    else:
        made.write_number(row, column, plain(cell), look)


def clean(text: str) -> str:
    """What a cell can hold; text in the tags of a rich string would be taken for markup without the space."""
    fit = NOT_XML.sub("\ufffd", text)
    fit = f"{fit} " if fit.startswith("<r>") and fit.endswith("</r>") else fit
    mark = " … (cut here)"
    return fit if len(fit) <= LONGEST else fit[: LONGEST - len(mark)] + mark


def width(sheet: Worksheet, number: int) -> float:
    """Of a column, in digits: its longest line, within bounds; what is longer wraps."""
    column = sheet.columns[number]
    sums = [row for row in sheet.foot if not isinstance(row[number], str)]
    lines = [line for row in (*sheet.rows, *sums) for line in shown(row[number], column).splitlines()]
    longest = max(map(digits, lines), default=0.0)
    word = max(map(digits, column.head.split()), default=0.0) + ARROW
    return round(min(max(longest + 1.0, word, NARROWEST), WIDEST), 2)


def height(widths: Sequence[float], cells: Sequence[Cell]) -> float:
    """Of a row, in points: as many lines as its fullest cell wraps to in columns of such widths."""
    most = 1
    for digits_wide, cell in zip(widths, cells, strict=True):
        room = (digits_wide - PADDING) * text_width("0", size=1.0)
        parts = clean(cell).splitlines() if isinstance(cell, str) else []
        most = max(most, sum(len(wrapped(part, width=room, size=1.0)) or 1 for part in parts))
    return LINE_PT * most


def digits(text: str) -> float:
    """Width of a line in digits of the same type."""
    return text_width(text[:200], size=1.0) / text_width("0", size=1.0)


def shown(cell: Cell, column: Column) -> str:
    """About as the spreadsheet prints it."""
    value = cell.value if isinstance(cell, Formula) else cell
    if value is None or isinstance(value, str):
        return value or ""
    if isinstance(value, tuple):
        return f"{value.amount:,.2f} {value.currency}"
    return f"{value:,.{len(column.form.partition('.')[2])}f}"


def page(made: Any, sheet: Worksheet, job: Job, practice: Practice) -> None:
    """Frozen head, filter, and how it prints."""
    last = len(sheet.columns) - 1
    made.freeze_panes(1, sheet.kept)
    if sheet.rows:
        made.autofilter(0, 0, len(sheet.rows), last)
    made.set_landscape()
    made.set_paper(PAPER[practice.paper])
    made.set_margins(left=0.4, right=0.4, top=0.7, bottom=0.6)
    made.fit_to_pages(1, 0)
    made.repeat_rows(0)
    foot = 1 + len(sheet.foot) if sheet.foot else 0
    made.print_area(0, 0, len(sheet.rows) + foot, last)
    revision = f"{job.number}, revision {job.revision}"
    made.set_header(line({"L": revision, "C": job.title, "R": sheet.name}))
    made.set_footer(line({"L": f"{job.date}, {job.state}"}) + "&RPage &P of &N")


def line(parts: Mapping[str, str]) -> str:
    """Parts of a printed head line, each cut to its share of what fits; `&` would begin a code."""
    room = (LINE - 30) // len(parts)
    return "".join(f"&{side}{held(text, room)}" for side, text in parts.items())


def held(text: str, room: int) -> str:
    """Text for a printed head line; a doubled `&` prints as one, but before these two it is a picture's code."""
    harmless = re.sub(r"&(?=G|\[)", "＆", " ".join(clean(text).split()))
    letters: Iterable[str] = ("&&" if c == "&" else c for c in harmless)
    done = ""
    for letter in letters:
        if len((done + letter).encode("utf-16-le")) // 2 > room - 1:
            return done + "…"
        done += letter
    return done
