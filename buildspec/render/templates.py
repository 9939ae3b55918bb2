"""Jinja templates. A name that a template asks for and nobody gives is an error, never an empty place.

Markdown templates escape every value by themselves (`Text` excepted); HTML templates are autoescaped.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

import jinja2

from buildspec import resources, show
from buildspec.render.markdown import escape, listed, table


@cache
def _environment(kind: str) -> jinja2.Environment:
    html = kind == "html"
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(resources.folder("templates")),
        undefined=jinja2.StrictUndefined,
        keep_trailing_newline=True,
        trim_blocks=True,
        lstrip_blocks=True,
        autoescape=html,
        finalize=None if html else _finished,
    )
    environment.filters |= {"table": table, "listed": listed, "md": escape, "css": show.css_string}
    return environment


def _finished(value: object) -> object:
    """What an expression of a Markdown template prints; undefined values go on to raise."""
    return value if isinstance(value, jinja2.Undefined) else escape(value)


def markdown(name: str, context: Mapping[str, Any]) -> str:
    """The Markdown of `templates/<name>.md.j2`.

    Raises jinja2.UndefinedError for a name without a value, jinja2.TemplateNotFound for a missing template.
    """
    return _environment("markdown").get_template(f"{name}.md.j2").render(context)


def html(name: str, context: Mapping[str, Any]) -> str:
    """The HTML of `templates/<name>.html.j2`; raises as `markdown` does."""
    return _environment("html").get_template(f"{name}.html.j2").render(context)


def plain(file: str) -> str:
    """A file of the templates folder as it is."""
    return (resources.folder("templates") / file).read_text(encoding="utf-8")
