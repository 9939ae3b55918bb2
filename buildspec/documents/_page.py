"""Pages of their own beside the packet's page: templates that know the job, the shop and the paper."""

from __future__ import annotations

from typing import Any

import jinja2

from buildspec import resources, show
from buildspec.documents import _address as kept
from buildspec.documents._owner_heights import PAPERS
from buildspec.packet import Packet


def html(packet: Packet, name: str, **view: Any) -> str:
    """The HTML of `templates/<name>.html.j2`; raises jinja2.UndefinedError for a name without a value."""
    build = packet.sized.build
    paper = build.practice.paper
    width, height = PAPERS[paper]
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(resources.folder("templates")),
        undefined=jinja2.StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["css"] = show.css_string
    return environment.get_template(f"{name}.html.j2").render(
        job=build.job,
        shop=build.practice.shop,
        paper=paper,
        width=width,
        height=height,
        code=kept.code(build),
        kept=kept.words(build),
        **view,
    )
