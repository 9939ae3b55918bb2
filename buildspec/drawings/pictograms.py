"""Pictures for keys: one stroke drawing each, on a grid of 24 by 24, legible from 8 mm.

Drawn here after the meanings of ISO 7000 and ISO 2575 where they name one; parallel rays are focused
light, spreading rays diffuse light (ISO 4129). Every picture is one path without fill, so that its
owner sets colour, width and dash.
"""

from __future__ import annotations

from typing import NamedTuple

GRID = 24
STROKE = 1.7
"""Line width on the grid: 0.57 mm at 8 mm."""


class Picture(NamedTuple):
    """What it shows, in words, and its path."""

    title: str
    d: str


_FAN = (
    "M12 9.9C9.4 8 9.6 2.8 13 2.8C16.4 2.8 15.6 7.6 13.6 10.7"
    "M14.1 12C16 9.4 21.2 9.6 21.2 13C21.2 16.4 16.4 15.6 13.3 13.6"
    "M12 14.1C14.6 16 14.4 21.2 11 21.2C7.6 21.2 8.4 16.4 10.4 13.3"
    "M9.9 12C8 14.6 2.8 14.4 2.8 11C2.8 7.6 7.6 8.4 10.7 10.4"
)

PICTURES = {
    "beacon": Picture(
        "Beacon: dome on a base, rays all round",
        "M5 20.5H19M7.5 20.5V13.5a4.5 4.5 0 0 1 9 0V20.5M12 2.5V5.5M5.2 5.2L7.3 7.3M18.8 5.2L16.7 7.3"
        "M2 12.5H4.6M22 12.5H19.4",
    ),
    "light-bar": Picture(
        "Light bar: a row of lamps, parallel rays",
        "M2.5 5H21.5V12H2.5ZM7.25 5V12M12 5V12M16.75 5V12M4.9 15V20M9.6 15V20M14.4 15V20M19.1 15V20",
    ),
    "bed-lamp": Picture(
        "Load-bed lamp: lamp over an open bed",
        "M2.5 11V20H21.5V11M7.5 3.5H16.5M8.8 3.5a3.2 3.2 0 0 0 6.4 0M12 9.8V15.5M8.6 9L6.2 13.5"
        "M15.4 9L17.8 13.5",
    ),
    "work-lamp": Picture(
        "Work lamp: flood lamp on a bracket, rays to one side and down",
        "M3 4H10.5V13H3ZM6.75 13V20M3 20H10.5M14 5.5H21.5M13.8 9.5L20.9 11.9M13 13.2L18.6 18.2",
    ),
    "scene-left": Picture(
        "Scene lamp, left: vehicle from above, rays to the left",
        "M14 2.5H19a2.5 2.5 0 0 1 2.5 2.5V21.5H11.5V5a2.5 2.5 0 0 1 2.5-2.5ZM11.5 8.5H21.5"
        "M8.2 13H2M8.6 9L3 6.2M8.6 17L3 19.8",
    ),
    "scene-right": Picture(
        "Scene lamp, right: vehicle from above, rays to the right",
        "M5 2.5H10a2.5 2.5 0 0 1 2.5 2.5V21.5H2.5V5a2.5 2.5 0 0 1 2.5-2.5ZM2.5 8.5H12.5"
        "M15.8 13H22M15.4 9L21 6.2M15.4 17L21 19.8",
    ),
    "interior-lamp": Picture(
        "Interior lamp: dome lamp on a ceiling, spreading rays",
        "M2.5 4H21.5M5.8 4a6.2 6.2 0 0 0 12.4 0M12 13.5V20M7 12.6L4 18M17 12.6L20 18",
    ),
    "reverse-lamp": Picture(
        "Reverse lamp: lamp facing back, arrow backwards",
        "M11 4.5C6 4.5 2.5 7.6 2.5 12C2.5 16.4 6 19.5 11 19.5ZM14.5 12H21.5M18.4 8.9L21.5 12L18.4 15.1M14.5 6H18"
        "M14.5 18H18",
    ),
    "pump": Picture(
        "Pump: round housing with its outlet, on a foot",
        "M16.3 12.5a6.3 6.3 0 1 1-6.3-6.3H20.5V10.7H16M8.2 9.6L13.2 12.5L8.2 15.4ZM4.5 21.5H15.5"
        "M6.6 17.9L5.6 21.5M13.4 17.9L14.4 21.5",
    ),
    "outlet": Picture(
        "Outlet: round socket with a centre contact",
        "M21.5 12a9.5 9.5 0 1 1-19 0a9.5 9.5 0 1 1 19 0ZM14.2 12a2.2 2.2 0 1 1-4.4 0a2.2 2.2 0 1 1 4.4 0Z"
        "M6.8 9.2V14.8M17.2 9.2V14.8",
    ),
    "usb": Picture(
        "USB outlet: plug on its cable",
        "M8.5 9.5V2.5H15.5V9.5M6 9.5H18V14.5a3.5 3.5 0 0 1-3.5 3.5H9.5a3.5 3.5 0 0 1-3.5-3.5ZM12 18V22"
        "M10.9 5.8V6.2M13.1 5.8V6.2",
    ),
    "fridge": Picture(
        "Fridge: upright box with a snow crystal",
        "M5 2.5H19V21.5H5ZM5 7.8H19M8.2 4.9V5.4M12 10.6V18.6M8.5 12.6L15.5 16.6M15.5 12.6L8.5 16.6",
    ),
    "compressor": Picture(
        "Compressor: air tank with cylinder and gauge",
        "M5.8 12.5H18.2a3.4 3.4 0 0 1 0 6.8H5.8a3.4 3.4 0 0 1 0-6.8ZM7 19.3V22M17 19.3V22M5.5 12.5V5.5H11.5V12.5"
        "M5.5 9H11.5M8.5 5.5V2.5M19.8 6a3 3 0 1 1-6 0a3 3 0 1 1 6 0ZM16.8 9V12.5",
    ),
    "fan": Picture("Fan: four blades", _FAN + "M14.1 12a2.1 2.1 0 1 1-4.2 0a2.1 2.1 0 1 1 4.2 0Z"),
    "heater": Picture(
        "Heater: three rising waves over a plate",
        "M3 20.5H21M6 17C3.6 14.2 8.4 11 6 8M12 17C9.6 14.2 14.4 11 12 8M18 17C15.6 14.2 20.4 11 18 8"
        "M4.4 5.6L6 3.2L7.6 5.6M10.4 5.6L12 3.2L13.6 5.6M16.4 5.6L18 3.2L19.6 5.6",
    ),
    "inverter": Picture(
        "Inverter: direct current in, alternating current out",
        "M2.5 2.5H21.5V21.5H2.5ZM21.5 2.5L2.5 21.5M5.2 6.2H11M5.2 9.2H6.6M9.2 9.2H10.6"
        "M12.6 17.2C13.6 14.2 15 14.2 15.9 17.2C16.8 20.2 18.2 20.2 19.2 17.2",
    ),
    "camera": Picture(
        "Camera: housing with its lens",
        "M2.5 6.5H15.5V17.5H2.5ZM15.5 10.5L21.5 7V17L15.5 13.5"
        "M7.6 10a1.3 1.3 0 1 1-2.6 0a1.3 1.3 0 1 1 2.6 0Z",
    ),
    "radio": Picture(
        "Radio: set with loudspeaker and aerial",
        "M2.5 9H21.5V20.5H2.5ZM5.5 9L16 2.5M11.2 14.75a2.9 2.9 0 1 1-5.8 0a2.9 2.9 0 1 1 5.8 0Z"
        "M14.5 12.8H18.5M14.5 16.7H18.5",
    ),
    "horn": Picture(
        "Horn: trumpet with sound",
        "M2.5 9.5V14.5M2.5 10.5H7.5C10.7 10.5 12.5 8.5 14 5V19C12.5 15.5 10.7 13.5 7.5 13.5H2.5"
        "M17.3 12H22M16.9 8.2L20.9 5.9M16.9 15.8L20.9 18.1",
    ),
    "battery-assist": Picture(
        "Battery assist: one battery helps the other",
        "M2 10.5H10V20.5H2ZM14 10.5H22V20.5H14ZM18 10.5V4H6V9.5M3.7 7.2L6 9.7L8.3 7.2M6 13.3V17.7"
        "M3.8 15.5H8.2M18 13.3V17.7M15.8 15.5H20.2",
    ),
    "motor": Picture(
        "Motor: letter M in a circle",
        "M21.5 12a9.5 9.5 0 1 1-19 0a9.5 9.5 0 1 1 19 0ZM7.8 16V8L12 13L16.2 8V16",
    ),
    "winch": Picture(
        "Winch: drum with rope and hook",
        "M3 4.5V18.5M14 4.5V18.5M3 7.5H14M3 15.5H14M6.7 7.5V15.5M10.3 7.5V15.5M14 7.5H19V12.2"
        "M19 12.2a3 3 0 1 1-3 3",
    ),
    "water": Picture(
        "Water: a drop",
        "M12 2.5C8.8 7.3 5.3 10.6 5.3 14.8a6.7 6.7 0 0 0 13.4 0C18.7 10.6 15.2 7.3 12 2.5Z"
        "M8.9 14.8a3.1 3.1 0 0 0 3.1 3.1",
    ),
    "lift": Picture(
        "Lift: platform on scissors, going up",
        "M3 21.5H21M3 12H21M5 21.5L19 12M19 21.5L5 12M12 9V2.5M8.9 5.6L12 2.5L15.1 5.6",
    ),
    "antenna": Picture("Antenna: mast with an open top", "M4 2.5H20L12 11.5ZM12 2.5V21.5M7.5 21.5H16.5"),
    "blank": Picture("Free: nothing behind it", "M8 12H16"),
}  # fmt: skip


def name_of(name: str) -> str:
    """What a picture shows, without how: `Light bar`."""
    return PICTURES[name].title.partition(":")[0]


def group(name: str, *, x: float, y: float, size: float, ink: str, dashed: bool = False) -> str:
    """SVG of a picture with its corner at (x, y) and `size` wide."""
    ends = 'stroke-linecap="butt" stroke-dasharray="2.7 1.5"' if dashed else 'stroke-linecap="round"'
    return (
        f'<g transform="translate({x:.2f} {y:.2f}) scale({size / GRID:.4f})" fill="none" stroke="{ink}" '
        f'stroke-width="{STROKE}" stroke-linejoin="round" {ends}><path d="{PICTURES[name].d}"/></g>'
    )
