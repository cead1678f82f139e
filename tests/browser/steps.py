"""What a person does on a page, by the words that stand there."""

from playwright.sync_api import Page, expect

from tests.browser.looking import check


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name).click()


def follow(page: Page, name: str) -> None:
    page.get_by_role("link", name=name).click()


def heading(page: Page, name: str) -> None:
    """On the page of this title, which everybody can use."""
    expect(page.get_by_role("heading", name=name, level=1)).to_be_visible()
    check(page)
