"""Numbers in words, and what people say around a number: to digits, and away with it.

Texts are in small letters. What is not understood is left as it is: whoever reads the number
says that it is none.
"""

from __future__ import annotations

import re

ONES = (
    *("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven"),
    *("twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
)
TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
NUMBERS = {word: i for i, word in enumerate(ONES, 1)} | {
    word: i * 10 for i, word in enumerate(TENS, 2)
}
TWO_WORDS = re.compile(rf"\b(?P<tens>{'|'.join(TENS)})[ -](?P<one>{'|'.join(ONES[:9])})\b")
ONE_WORD = re.compile(rf"\b(?:{'|'.join(sorted(NUMBERS, key=len, reverse=True))})\b")
HUNDRED = re.compile(r"\b(?P<many>\d|an?) hundred(?:(?: and)? (?P<rest>\d{1,2})\b)?")
PARTS = {"half": "1/2", "quarter": "1/4", "3 quarters": "3/4"}
PART = r"(?:an? )?(?P<part>half|3 quarters|quarter)"
UNITS = (
    r"(?:millimet(?:er|re)s?|centimet(?:er|re)s?|met(?:er|re)s?|feet|foot|inch(?:es)?|yards?"
    r"|mm|cm|m|ft|in)"
)
UNIT_AND_PART = re.compile(rf"(?P<whole>\b\d+) ?(?P<unit>{UNITS}) and {PART}\b")
AND_PART = re.compile(rf"(?P<whole>\b\d+) and {PART}\b")
ALONE = re.compile(rf"\b{PART}(?: of)?(?: an?)? (?={UNITS}\b)")
A_UNIT = re.compile(rf"\ban? (?={UNITS}\b)")
AND_MORE = re.compile(rf"(?P<first>\d ?{UNITS})(?: and|,) (?=\d)")
YARDS = re.compile(r"\b(?P<whole>\d+)(?: (?P<over>\d)/(?P<under>\d))? yards?\b")
YARD = 36  # inches

BEFORE = re.compile(
    r"(?:about|around|roughly|circa|ca\.?|approx(?:\.|imately)?|nearly|almost|just|only|exactly"
    r"|some|maybe|perhaps|probably|~|it is|it's|they are|they're|that is|that's|i think|i'd say"
    r"|(?:a (?:bit|little) |just )?(?:over|under|more than|less than)"
    r"|at (?:the )?most|at least|up to|max\.?|maximum|not more than|no more than)\s+"
    r"|[~=]\s*"
)
BEHIND = re.compile(
    r"[\s,]*(?:\b(?:wide|long|high|deep|tall|thick|across|each|in all|in total|or so|roughly"
    r"|about|more or less|or a (?:bit|little) (?:more|less)|i think|i guess|max|maximum|square"
    r"|exactly|measured|now|off the floor|up|ceilings?"
    r"|(?:at )?(?:the |its )?(?:very )?(?:most|highest|middle|longest|widest)"
    r"|(?:from|above|over|off) the (?:floor|ground))|\.)$"
)


def in_digits(text: str) -> str:
    """Number words as digits, yards as inches; the rest stays as it is.

    >>> in_digits("two metres fifty"), in_digits("seven and a half feet"), in_digits("a yard")
    ('2 metres 50', '7 1/2 feet', '36 in')
    >>> in_digits("a metre and a half"), in_digits("half a metre"), in_digits("two foot three")
    ('1 1/2 metre', '1/2 metre', '2 foot 3')
    >>> in_digits("a hundred and twenty"), in_digits("twenty-five"), in_digits("3 m 42")
    ('120', '25', '3 m 42')
    """
    words = TWO_WORDS.sub(lambda m: str(NUMBERS[m["tens"]] + NUMBERS[m["one"]]), text)
    words = ONE_WORD.sub(lambda m: str(NUMBERS[m[0]]), words)
    words = HUNDRED.sub(_hundreds, words)
    words = AND_PART.sub(lambda m: f"{m['whole']} {PARTS[m['part']]}", words)
    words = ALONE.sub(lambda m: f"{PARTS[m['part']]} ", words)
    words = A_UNIT.sub("1 ", words)
    words = UNIT_AND_PART.sub(lambda m: f"{m['whole']} {PARTS[m['part']]} {m['unit']}", words)
    words = AND_MORE.sub(lambda m: f"{m['first']} ", words)
    return YARDS.sub(_inches, words)


def _hundreds(found: re.Match[str]) -> str:
    many = 1 if found["many"].startswith("a") else int(found["many"])
    return str(100 * many + int(found["rest"] or 0))


def _inches(found: re.Match[str]) -> str:
    inches = YARD * int(found["whole"])
    if found["over"] and int(found["under"]):
        inches += YARD * int(found["over"]) // int(found["under"])
    return f"{inches} in"


def bare(text: str) -> str:
    """The number alone, as digits, without what people say before and behind it.

    >>> bare("about 3.5 metres"), bare("2,35 at the highest"), bare("it's eighty wide, I think")
    ('3.5 metres', '2,35', '80')
    """
    words = " ".join(re.sub(r"\([^)]*\)", " ", text.casefold()).split())
    words = re.sub(r"(?<=\d) ?(ft|in|cm|m|mm)\.", r" \1", words)  # "9 ft. 4 in."
    while found := BEFORE.match(words):
        words = words[found.end() :]
    while found := BEHIND.search(words):
        words = words[: found.start()]
    return in_digits(words)
