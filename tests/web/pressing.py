"""Pressing a button of a page as a browser without script does: the form it stands in, with its hidden fields."""

import re
from html import unescape
from typing import Any

FORM = re.compile(r'<form method="post" action="([^"]+)"[^>]*>(.*?)</form>', re.DOTALL)


def form_of(page: Any, button: str) -> tuple[str, dict[str, str]]:
    """Where the form is sent whose button says that, and the fields it sends."""
    for action, inside in FORM.findall(page.text):
        says = " ".join(unescape(re.sub(r"<[^>]+>", " ", inside)).split()).removeprefix("next ")
        if says.startswith(button):
            fields = re.findall(r'name="(\w+)" value="([^"]*)"', inside)
            return action, {name: unescape(value) for name, value in fields}
    raise AssertionError(f"no form says {button}")


def press(client: Any, page: Any, button: str, **typed: str) -> Any:
    """The page that comes of pressing it, with that typed."""
    action, fields = form_of(page, button)
    return client.post(action, data={**fields, **typed})
