"""Pages of their own for owners: templates whose every value is escaped, words of another language marked with it."""

from __future__ import annotations

import functools
from typing import Any

import jinja2
from markupsafe import Markup, escape

from buildspec import resources
from buildspec.tongues import CLOSE, OPEN, plain


def page(template: str, view: dict[str, Any], source: str) -> str:
    """`templates/<template>.html.j2` set with a view; `source` is the language of the marked words."""
    return environment(source).get_template(f"{template}.html.j2").render(view)


@functools.cache
def environment(source: str) -> jinja2.Environment:
    made = jinja2.Environment(
        loader=jinja2.FileSystemLoader(resources.folder("templates")),
        undefined=jinja2.StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=functools.partial(spoken, source),
    )
    made.filters["plain"] = plain
    return made


def spoken(source: str, value: object) -> object:
    """Marks around words of the spec's language → an element that names it."""
    if not isinstance(value, str) or OPEN not in value:
        return value
    text = str(escape(value))
    return Markup(text.replace(OPEN, f'<span lang="{source}">').replace(CLOSE, "</span>"))
