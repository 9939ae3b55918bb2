"""Drawings that stand together in one page: their ids must not meet, and nothing may name the outside."""

from __future__ import annotations

import re
from collections.abc import Mapping

_PROLOG = re.compile(r"^\s*(?:<\?xml[^>]*\?>\s*)?(?:<!DOCTYPE[^>]*>\s*)?")
_ID = re.compile(r'(\s)id="([^"]+)"')
_HREF = re.compile(r'((?:xlink:)?href)="#([^"]+)"')
_URL = re.compile(r"url\(#([^)]+)\)")
_NAMED = re.compile(r'(aria-(?:labelledby|describedby))="([^"]+)"')
_TEXT = re.compile(r"(<text\b[^>]*>)([^<]+)(</text>)")


def inline(svg: str, *, prefix: str) -> str:
    """The drawing without XML prolog, with `prefix-` before each id and each reference to one."""
    text = _PROLOG.sub("", svg, count=1)
    text = _ID.sub(rf'\1id="{prefix}-\2"', text)
    text = _HREF.sub(rf'\1="#{prefix}-\2"', text)
    text = _URL.sub(rf"url(#{prefix}-\1)", text)
    return _NAMED.sub(lambda m: f'{m[1]}="{" ".join(f"{prefix}-{part}" for part in m[2].split())}"', text)


def linked(svg: str, links: Mapping[str, str]) -> str:
    """The drawing with every text that is exactly a key of `links` leading to that address.

    An image hides the links in it from a screen reader, a group does not.
    """

    def lead(found: re.Match[str]) -> str:
        target = links.get(found[2].strip())
        return f'<a href="{target}">{found[0]}</a>' if target else found[0]

    return _TEXT.sub(lead, svg).replace('role="img"', 'role="group"', 1)
