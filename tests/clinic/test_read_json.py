"""JSON of others: read within limits, refused with words."""

import pytest

from clinic.read_json import DEEPEST, MOST_CHARACTERS, BadJSONError, read_json


def test_what_holds_is_read() -> None:
    assert read_json('{"a": [1, -2.5, "x", null, true]}') == {"a": [1, -2.5, "x", None, True]}
    assert read_json("[" * DEEPEST + "]" * DEEPEST)
    assert read_json("-" + "9" * 15) == -(10**15 - 1)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("{", "line 1"),
        ("[" * 100_000, "levels"),
        ("[" * (DEEPEST + 1) + "]" * (DEEPEST + 1), f"{DEEPEST} levels"),
        ('{"a":' * 500 + "1" + "}" * 500, "levels"),
        ('"' + "x" * MOST_CHARACTERS + '"', "characters"),
        ("9" * 16, "15 digits"),
        ("9" * 9999, "15 digits"),
        ('{"a": 1, "a": 2}', "“a” is given twice"),
        ('{"\\ud800": 1, "\\ud800": 2}', "given twice"),
        ('"a\\u0000b"', "cannot be stored"),
        ('{"\\ud800": 1}', "cannot be stored"),
    ],
)
def test_what_does_not_is_refused_in_words(text: str, words: str) -> None:
    with pytest.raises(BadJSONError, match=words) as refused:
        read_json(text)
    str(refused.value).encode()  # can be shown
