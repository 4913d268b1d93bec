"""Reads sums of money as people write them, with their currency or without."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from unicodedata import category

from arrange.begin.answers import Question, declines
from arrange.begin.spelt import in_digits
from arrange.data.lengths import money as told

# A sum with its thousands set apart, by a comma or otherwise, and its cents if it has any.
THOUSANDS = re.compile(r"\d{1,3}(?:(?:,\d{3})+(?P<cents>\.\d\d)?|(?:[.' ]\d{3})+(?:,\d\d)?)")
SUM = re.compile(r"(?P<before>[^\d\s]*)\s*(?P<number>\d[\d.,' ]*)\s*(?P<after>[^\d]*)")
# What people say around a sum.
FREE = ("free", "it is free", "it's free", "for free", "nothing at all")
SUM_BEFORE = re.compile(
    r"^(?:(?:about|around|roughly|maybe|perhaps|circa|ca\.?|up to|at (?:the )?most|max\.?|maximum"
    r"|not more than|no more than|less than|under|it costs|costs|~)\s+)+",
    re.IGNORECASE,
)
SUM_BEHIND = re.compile(
    r"[\s,]*(?:\b(?:at (?:the )?(?:very )?most|max|maximum|or so|or less|roughly|all in all"
    r"|in all|in total|altogether|together|each|i think|i guess)|\.)$",
    re.IGNORECASE,
)
LONGEST_CURRENCY = 4
NAMED = {"euro": "EUR", "dollar": "$", "pound": "£", "quid": "£", "buck": "$", "franc": "CHF"}
NO_SUM = 'That is not a sum of money. Write it like "450" or "89.90".'


def money_of(text: str) -> tuple[Decimal, str]:
    """A sum and the currency written beside it, "" without one.

    >>> money_of("350 dollars"), money_of("600,-"), money_of("1.5k euros")
    ((Decimal('350'), '$'), (Decimal('600'), ''), (Decimal('1500.0'), 'EUR'))
    >>> money_of("1,500"), money_of("€ 89,90"), money_of("1200 EUR")
    ((Decimal('1500'), ''), (Decimal('89.90'), '€'), (Decimal('1200'), 'EUR'))
    """
    found = SUM.fullmatch(text.strip())
    if found is None:
        raise ValueError(NO_SUM)
    number = found["number"].strip(" ,.'")
    apart = THOUSANDS.fullmatch(number)
    if apart:
        # What is no comma for the cents sets the thousands apart.
        number = re.sub("[,' ]" if apart["cents"] else r"[.' ]|,(?=\d{3})", "", number)
    number = number.replace(",", ".")
    currency = (found["before"] + found["after"]).strip(" -,")
    thousand = re.match(r"k\b|thousand\b", currency, re.IGNORECASE)
    if thousand:
        currency = currency[thousand.end() :].strip()
    currency = NAMED.get(currency.casefold().removesuffix("s"), currency)
    if not re.fullmatch(r"\d{1,7}(?:\.\d{1,2})?", number) or not _is_currency(currency):
        raise ValueError(NO_SUM)
    return Decimal(number) * (1000 if thousand else 1), currency


def _is_currency(text: str) -> bool:
    """Whether this can stand beside a sum: nothing, a few letters, or a sign for money."""
    signs = all(c.isalpha() or category(c) == "Sc" for c in text)
    return signs and len(text) <= LONGEST_CURRENCY


def money(text: str, nothing: str) -> Question[tuple[Decimal, str] | None]:
    """A sum of money, or nothing."""

    def read(words: str) -> tuple[Decimal, str] | None:
        if declines(words) or words.casefold().strip(". ") in FREE:
            return None
        bare = SUM_BEFORE.sub("", SUM_BEHIND.sub("", words))
        return money_of(bare if re.search(r"\d", bare) else in_digits(bare.casefold()))

    def said(sum_: tuple[Decimal, str] | None) -> str:
        if sum_ is None:
            return ""
        amount, currency = told(sum_[0]), sum_[1]
        return f"Noted: {currency} {amount}." if currency else f"Noted: {amount}."

    return Question(text, read, 'Write it like "450" or "89.90".', nothing, None, said)


def money_needed(text: str) -> Question[tuple[Decimal, str] | None]:
    """A sum of money that has to be known; 0 for what is free."""
    question = money(text, "")

    def read(words: str) -> tuple[Decimal, str]:
        if words.casefold().strip(". ") in (*FREE, "nothing"):
            return Decimal(0), ""
        found = question.read(words) if re.search(r"\d", in_digits(words.casefold())) else None
        if found is None:
            raise ValueError('We need a rough sum to choose by, such as "80", or "free".')
        return found

    example = 'We compare what things cost, so give a rough sum: "80", for example, or "free".'
    return replace(question, read=read, example=example, usual=None)
