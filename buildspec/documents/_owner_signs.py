"""Signs before the headings of the owner's sheet: strokes on a grid of 24, drawn like the pictures of the keys."""

from __future__ import annotations

from buildspec.drawings import pictograms

SIGNS = {
    "start": pictograms.PICTURES["battery-assist"].d,
    "off": "M12 3V11M7.2 6.2a8 8 0 1 0 9.6 0",
    "park": "M21.5 12a9.5 9.5 0 1 1-19 0a9.5 9.5 0 1 1 19 0ZM12 6V12L16.2 14.6",
    "fuse": "M4 3.5H20V12.5H4ZM6.5 12.5V20.5H9.5V12.5M14.5 12.5V20.5H17.5V12.5M8 9.5C9.5 5.5 14.5 5.5 16 9.5",
    "later": "M2 12H9M9 8.5H13V15.5H9ZM16 8.5H20V15.5H16ZM20 12H22M13 10.2H14.6M13 13.8H14.6",
    "load": "M6.2 9H17.8L21 20.5H3ZM15 6a3 3 0 1 1-6 0a3 3 0 1 1 6 0",
    "call": (
        "M6.2 3H10L11.6 7.6L9 9.6C10.2 12 12 13.8 14.4 15L16.4 12.4L21 14V17.8C21 19.6 19.6 21 17.8 21"
        "C9.6 21 3 14.4 3 6.2C3 4.4 4.4 3 6.2 3Z"
    ),
    "mains": "M12 2.5L22 20.5H2ZM13 8L10 13.2H14L11 18",
    "note": "M12 2.5L22 20.5H2ZM12 9V14.5M12 17.2V17.8",
}  # fmt: skip
