"""The two ways in which pages are worked without a mouse: by the keys alone, and by a finger alone.

Keys go by Tab from where the focus is, and press what has it: a control that Tab does not reach is not found.
"""

from playwright.sync_api import Locator, Page

FARTHEST = 120  # presses of Tab: more than any page of ours has controls
NAME = """() => {
  const at = document.activeElement;
  const of = at.labels && at.labels.length ? at.labels[0] : at;
  return of.textContent.split(/\\s+/).join(" ").trim();
}"""


class Keys:
    """Somebody at the keyboard."""

    def __init__(self, page: Page) -> None:
        """At a page of the office."""
        self.page = page

    def to(self, words: str) -> None:
        """Go on with Tab until what is called so, or begins so, has the focus."""
        passed = []
        for _ in range(FARTHEST):
            self.page.keyboard.press("Tab")
            passed.append(str(self.page.evaluate(NAME)))
            if passed[-1].removeprefix("next ").startswith(words):
                return
        raise AssertionError(f"Tab never comes to {words}, but to {list(dict.fromkeys(passed))}")

    def press(self, words: str) -> None:
        """Go there, and press Enter."""
        self.to(words)
        self.page.keyboard.press("Enter")

    def type(self, field: str, words: str) -> None:
        """Go to a field, and type: Tab has chosen what stands in it."""
        self.to(field)
        self.page.keyboard.type(words)

    def scan(self, code: str) -> None:
        """What a hand scanner types, wherever one stands; and Enter."""
        self.page.keyboard.type(code)
        self.page.keyboard.press("Enter")


class Finger:
    """Somebody at a tablet: touches, and types with what comes up when a field is touched."""

    def __init__(self, page: Page) -> None:
        """At a page of a tablet."""
        self.page = page

    def press(self, words: str) -> None:
        """Touch a button or link of that name."""
        self._called(words).tap()

    def type(self, field: str, words: str) -> None:
        """Touch a field, and type into it instead of what stands there."""
        self.page.get_by_label(field).tap()
        self.page.keyboard.press("Control+A")
        self.page.keyboard.type(words)

    def scan(self, code: str) -> None:
        """The same hand scanner."""
        self.page.keyboard.type(code)
        self.page.keyboard.press("Enter")

    def _called(self, words: str) -> Locator:
        of_link = self.page.get_by_role("link", name=words)
        return of_link.or_(self.page.get_by_role("button", name=words)).locator("visible=true").first


Hands = Keys | Finger
