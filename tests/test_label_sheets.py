"""Labels, cards and codes that are printed: what they say, that it fits, and that a reader of codes reads it."""

from __future__ import annotations

import io
import pathlib
import re
import shutil
import subprocess

import PIL.Image
import PIL.ImageDraw
import PIL.ImageOps
import pytest
import zxingcpp
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st
from reference_rows import rows
from sample_builds import built, spec
from sample_packets import EXAMPLES, NAMES, packet
from sample_pdfs import need_engine, pages_of, squeezed

from buildspec import drawings, show
from buildspec.compile import pdf
from buildspec.documents import _fuse_lid, _fuses, _label_paper, _label_sheets
from buildspec.documents._labels import labels
from buildspec.documents._owner_fuses import SWATCHES
from buildspec.drawings import qr
from buildspec.errors import UsageError
from buildspec.model import LabelSheet
from buildspec.packet import Packet

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
MM_PER_PT = 25.4 / 72
RECT = re.compile(r'<rect x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)" fill="none"')
TEXT = re.compile(r'<text font-size="([\d.]+)"[^>]*>(.*?)</text>')
LINE = re.compile(r'<tspan x="([\d.]+)" y="([\d.]+)">([^<]*)</tspan>')


def svgs(path: pathlib.Path) -> str:
    return "".join(page.svg for page in _label_paper.pages(packet(path)))


# ------------------------------------------------------------------------------------------ labels


@EACH
def test_every_label_of_the_list_is_printed(path: pathlib.Path) -> None:
    """A wire's label stands on both halves of a flag, or on both sides of a wrap."""
    said = [squeezed("".join(t for _, _, t in LINE.findall(body))) for _, body in TEXT.findall(svgs(path))]
    for label in labels(packet(path)):
        text = squeezed(label.text).replace("&", "&amp;").replace(">", "&gt;")
        least = 2 if label.kind == "wire sleeve" else label.quantity
        assert said.count(text) >= least, label.text


def advances() -> TTFont:
    """The font that the sheets ask for, as the system has it."""
    if shutil.which("fc-match") is None:
        pytest.skip("fontconfig is not installed")
    found = subprocess.run(
        ["fc-match", "-f", "%{file}", "DejaVu Sans:bold"], capture_output=True, text=True, check=True
    ).stdout
    if "DejaVuSans-Bold" not in found:
        pytest.skip("the DejaVu fonts are not installed")
    return TTFont(found)


@EACH
def test_no_line_leaves_its_label(path: pathlib.Path) -> None:
    """Widths from the font file itself, not from the table that the labels were set with."""
    font = advances()
    table, names, unit = font["hmtx"], font.getBestCmap(), font["head"].unitsPerEm
    for page in _label_paper.pages(packet(path)):
        boxes = [tuple(map(float, box)) for box in RECT.findall(page.svg)]
        checked = 0
        for size, body in TEXT.findall(page.svg):
            for x, y, text in LINE.findall(body):
                plain = text.replace("&gt;", ">").replace("&amp;", "&")
                half = sum(table[names[ord(c)]][0] for c in plain) / unit * float(size) / 2
                left, right, base = float(x) - half, float(x) + half, float(y)
                assert any(
                    bx <= left and right <= bx + w and by <= base - 0.75 * float(size) and base <= by + h
                    for bx, by, w, h in boxes
                ), plain
                checked += 1
            assert float(size) >= 4.99 * MM_PER_PT
        assert checked >= len(boxes)


@given(st.text("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789:→ ", min_size=1, max_size=90).filter(str.strip))
def test_a_text_fits_whole_or_not_at_all(text: str) -> None:
    words = " ".join(text.split())
    found = _label_sheets.fitted(words, 38.1, 21.2)
    if found is None:
        assert _label_sheets.setting(words, 5.0, 36.1, inside=True).high > 19.2  # type: ignore[union-attr]
        return
    assert squeezed("".join(found.lines)) == squeezed(words)
    assert found.size_pt >= 5.0 and found.wide <= 36.1 and found.high <= 19.2


def test_a_text_that_fits_no_label_is_said() -> None:
    sheet = LabelSheet(0.010, 0.006, 2, 2, 0.0, 0.0)
    with pytest.raises(
        UsageError, match=r"label `X14 RESERVE .* does not fit 10\.0 mm x 6\.0 mm at 5 pt; shorten"
    ):
        _label_sheets.tag("X14 RESERVE SCENE LAMP LEFT, max 4 A, NOT LIVE", sheet)


def small(practice: dict[str, object]) -> Packet:
    sized = built(spec(6), practice)
    return Packet(sized, (), drawings.sheets(sized), ())


def test_the_practice_chooses_the_sheet_by_its_measures() -> None:
    written = {"width": "63.5 mm", "height": "38.1 mm", "columns": 3, "rows": 7, "gap_across": "2.5 mm"}
    made = small({"practice": 1, "paper": "A4", "label_sheet": written})
    page = _label_paper.pages(made)[-1]
    boxes = [tuple(map(float, box)) for box in RECT.findall(page.svg)]
    assert {(w, h) for _, _, w, h in boxes} == {(63.5, 38.1)}
    # 3 × 63.5 + 2 × 2.5 = 195.5, centred on 210; 7 × 38.1 = 266.7, centred on 297
    assert min(x for x, *_ in boxes) == pytest.approx(7.25, abs=0.01)
    assert min(y for _, y, *_ in boxes) == pytest.approx(15.15, abs=0.01)
    assert boxes[1][0] - boxes[0][0] == pytest.approx(66.0, abs=0.01)


def test_a_sheet_that_is_larger_than_the_paper_is_said() -> None:
    written = {"width": "70 mm", "height": "30 mm", "columns": 4, "rows": 7}
    with pytest.raises(UsageError, match=r"is 280\.0 mm wide, A4 is 210 mm"):
        _label_paper.pages(small({"practice": 1, "paper": "A4", "label_sheet": written}))


def test_flags_go_round_their_wire() -> None:
    """Between the halves of a flag lies the circumference of the wire."""
    strip = _label_sheets.flag("BL11 W23 → S1:1", 2.4)
    (_, first), (second, _) = strip.fields
    assert 3.1416 * 2.4 <= second - first <= 3.1416 * 2.4 + 1.5
    assert strip.tape in (9.0, 12.0, 18.0, 24.0)
    assert strip.setting.high <= strip.tape


# ------------------------------------------------------------------------------------------- cards


@EACH
def test_the_card_names_every_hosted_fuse_with_its_own_limit(path: pathlib.Path) -> None:
    sized = packet(path).sized
    found = {
        (card["name"].split()[-1], row["position"]): row
        for card in _fuse_lid.cards(packet(path))
        for half in card["halves"]
        for row in half
    }
    hosts = {n: x.designation for n, x in (*sized.build.blocks.items(), *sized.build.panels.items())}
    seen = 0
    for circuit in sized.build.circuits:
        for device in sized.sizings[circuit.key].devices:
            if device.kind != "fuse" or not device.host or circuit.existing:
                continue
            row = found[hosts[device.host], str(device.position)]
            rating = show.amps(device.rating_a).replace(" ", "\u00a0")
            assert (row["rating"], row["limit"]) == (rating, f"max\u00a0{rating}")
            assert circuit.number in row["feeds"]
            seen += 1
    assert seen >= 9
    for name, block in sized.build.blocks.items():
        for position, reason in block.empty.items():
            assert reason in found[hosts[name], str(position)]["state"]


def test_chips_carry_the_colours_of_the_standard() -> None:
    """Blade fuses by public copies of ISO 8820-3; bolted ones have no colours in it. Its name stands beside a chip."""
    known = {
        (r["family"].removeprefix("regular "), float(r["rating_a"]), r["colour"])
        for r in rows("fuse_ratings_colours.csv")
        if r["verified"] == "yes" and r["iso_standard"] == "ISO 8820-3"
    }
    lines = [line for path in EXAMPLES for _, group in _fuses.groups(packet(path)) for line in group]
    blades = [
        (line["type"], _fuse_lid.row(line)) for line in lines if line["type"] in ("blade", "mini blade")
    ]
    shown = {(kind, float(row["rating"].split("\u00a0")[0]), row["colour"]) for kind, row in blades}
    assert len(shown) >= 6
    assert shown <= known
    assert all(row["chip"] == SWATCHES[row["colour"]] for _, row in blades)


# ------------------------------------------------------------------------------------------- codes


def picture(svg: str, dots: int = 8) -> tuple[PIL.Image.Image, int]:
    """The code drawn anew from its path, `dots` a module; and how many modules it is wide."""
    match = re.search(r'viewBox="0 0 (\d+) \1"', svg)
    assert match is not None
    modules = int(match[1])
    image = PIL.Image.new("L", (modules * dots, modules * dots), 255)
    pen = PIL.ImageDraw.Draw(image)
    for x, y, length in (map(int, run) for run in re.findall(r"M(\d+) (\d+)h(\d+)v1", svg)):
        pen.rectangle((x * dots, y * dots, (x + length) * dots - 1, (y + 1) * dots - 1), fill=0)
    return image, modules


@pytest.mark.parametrize("text", ["https://packets.example/FR-0117/B", "https://a.example/x/Ä%20/1"])
def test_a_decoder_reads_what_was_written(text: str) -> None:
    made = qr.code(text, title="t")
    image, modules = picture(made.svg)
    (read,) = zxingcpp.read_barcodes(image)
    assert read.text == text
    assert read.ec_level in ("M", "Q", "H")
    dark = PIL.ImageOps.invert(image).getbbox()
    assert dark == (32, 32, image.width - 32, image.width - 32), "four modules stay white on each side"
    assert made.size_mm / modules >= 0.5
    assert f'width="{made.size_mm:g}mm"' in made.svg


@EACH
def test_the_code_stands_where_the_shop_named_an_address(path: pathlib.Path) -> None:
    build = packet(path).sized.build
    base = build.practice.shop.packet_address
    for name in ("index.html", "handover.html", "fuse-lid.html"):
        page = pages_of(path)[name].decode()
        codes = re.findall(r'<svg class="qr".*?</svg>', page)
        assert bool(codes) == bool(base), name
        for code in codes:
            (read,) = zxingcpp.read_barcodes(picture(code)[0])
            assert read.text == f"{base}/{build.job.number}/{build.job.revision}"
            assert read.text in page.replace(code, ""), "in words beside it"
    assert {bool(packet(p).sized.build.practice.shop.packet_address) for p in EXAMPLES} == {True, False}


@pytest.mark.parametrize("name", ["handover.pdf", "fuse-lid.pdf"])
def test_the_code_is_read_off_the_printed_page(name: str) -> None:
    """At 200 dots an inch, as an office scanner sees it."""
    need_engine()
    if shutil.which("pdftoppm") is None:
        pytest.skip("poppler is not installed")
    path = EXAMPLES[0]
    page = name.replace(".pdf", ".html")
    printed = dict(pdf.files({page: pages_of(path)[page]}))
    done = subprocess.run(
        ["pdftoppm", "-r", "200", "-gray", "-png", "-"],
        input=printed[name],
        capture_output=True,
        check=True,
    )
    pages = done.stdout.split(b"\x89PNG")[1:]
    read = [
        r.text
        for page in pages
        for r in zxingcpp.read_barcodes(PIL.Image.open(io.BytesIO(b"\x89PNG" + page)))
    ]
    build = packet(path).sized.build
    assert f"{build.practice.shop.packet_address}/{build.job.number}/{build.job.revision}" in read
