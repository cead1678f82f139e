"""What is asked of every page in the browser."""

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}


def obstacles(page: Page) -> list[str]:
    """What would keep somebody from using the page, by axe: each rule broken, with its element."""
    found = Axe().run(page, options=RULES).response["violations"]
    return [f"{rule['id']}: {node['target']}" for rule in found for node in rule["nodes"]]


def overflow(page: Page) -> int:
    """By how many pixels the page is wider than its window."""
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


def check(page: Page) -> None:
    """Looks at a page that has come in whole."""
    page.wait_for_load_state()
    assert obstacles(page) == []
    assert overflow(page) <= 0
