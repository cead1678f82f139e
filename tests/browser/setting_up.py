"""The steps by which the first visitor sets up a garden of sixty plots, in the browser."""

from playwright.sync_api import Page, expect

from tests.browser.steps import follow, heading, press


def come_in(page: Page, code: str) -> None:
    page.goto("/")
    heading(page, "Set up your garden")
    page.get_by_label("Code").fill(code)
    page.get_by_label("Your name").fill("Marisol Núñez")
    page.get_by_label("Name of the garden").fill("Linnet Lane")
    page.get_by_label("Time zone").select_option("America/Denver")
    page.get_by_label("Latitude").fill("40.4")
    press(page, "Make the garden")
    heading(page, "Setting up Linnet Lane")


def place_and_units(page: Page) -> None:
    follow(page, "Go on: Where the garden lies")
    heading(page, "Where the garden lies")
    page.get_by_label("Town and region").fill("Alder Crossing")
    page.get_by_label("Height above the sea").fill("3300 ft")
    press(page, "Keep and go on")
    heading(page, "Units, paper and language")
    expect(page.get_by_label("Paper")).to_have_value("letter")
    press(page, "Skip for now")


def frost_dates(page: Page) -> None:
    heading(page, "Frost dates")
    follow(page, "Type a mean last and first frost")
    page.get_by_label("Mean last freeze of spring").fill("May 10")
    page.get_by_label("Mean first freeze of autumn").fill("September 28")
    page.get_by_role("main").get_by_role("button").last.click()
    follow(page, "back to the steps")
    heading(page, "Setting up Linnet Lane")
    follow(page, "Go on: Frost dates")
    press(page, "The dates are there")


def sixty_plots(page: Page) -> None:
    heading(page, "Plots")
    follow(page, "Lay out rows of plots")
    page.get_by_label("Rows", exact=True).fill("6")
    page.get_by_label("Plots in each row").fill("10")
    page.get_by_label("A plot's side along the row").fill("10")
    page.get_by_label("Its side across the row").fill("20")
    page.get_by_label("Between neighbours").fill("2")
    page.get_by_label("Path between rows").fill("4")
    press(page, "Show how it would look")
    heading(page, "Rows of plots")
    press(page, "Make these 60 plots")
    follow(page, "back to the steps")
    follow(page, "Go on: Plots")
    expect(page.get_by_text("60 plots so far.")).to_be_visible()
    press(page, "The plots are there")


def season_and_rules(page: Page) -> None:
    heading(page, "The season")
    press(page, "Keep and go on")
    heading(page, "Rules")
    page.get_by_text("Workdays and hours", exact=True).click()
    follow(page, "Change: Workdays and hours")
    page.get_by_label("Hours of work owed in a season").fill("6")
    press(page, "Keep these rules")
    heading(page, "Rules")
    follow(page, "back to the steps")
    follow(page, "Go on: Rules")
    press(page, "These will do")


def finish_what_was_skipped(page: Page) -> None:
    heading(page, "Setting up Linnet Lane")
    follow(page, "Go on: Units, paper and language")
    page.get_by_label("Paper").select_option("a4")
    press(page, "Keep and go on")
    expect(page.get_by_text("All six steps are done.")).to_be_visible()
    press(page, "Finish")
    heading(page, "Linnet Lane")


def set_up(page: Page, code: str) -> None:
    """From nobody in it to the garden's own page, with one step skipped and taken up again."""
    come_in(page, code)
    place_and_units(page)
    frost_dates(page)
    sixty_plots(page)
    season_and_rules(page)
    finish_what_was_skipped(page)
