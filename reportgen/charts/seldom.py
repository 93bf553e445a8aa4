"""A page whose only channel was read too seldom: what can be said of it, and what to log."""

from __future__ import annotations

from reportgen.charts.types import Note, Page
from reportgen.measures import record_words as say
from reportgen.measures.seldom import why_seldom
from reportgen.readings.types import Channel
from reportgen.review import Review
from reportgen.wording import Wording


def seldom_page(review: Review, slug: str, title: str, channel: Channel, shows: str, more: str = "") -> Page:
    """The page of a subject of which there is only a mean.

    `shows`: what the page would show, "this page would show …"; `more` is said after the mean.
    """
    lead = " ".join(words for words in (seldom_words(review, channel), more) if words)
    note = Note(title=title, text=f"With a reading every ten minutes or so, day and night, {shows}", kind="missing")
    return Page(slug=slug, headline=f"{title}: read too seldom to tell", lead=lead, blocks=(note,), answers=False)


def seldom_words(review: Review, channel: Channel) -> str:
    """How often it was read, and its mean."""
    why = why_seldom(channel)
    if len(channel.values) < 2:
        return f"{why[:1].upper()}{why[1:]}."
    mean = say.value_words(Wording.of(review.season), channel.measure, float(channel.values.mean()))
    return f"{why[:1].upper()}{why[1:]}. Its {say.readings_count(len(channel.values))} average {mean}."
