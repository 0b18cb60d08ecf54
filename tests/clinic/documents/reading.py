"""How hard a text is to read: Flesch-Kincaid grade, with the syllables of our trade's words.

grade = 0.39 * words / sentences + 11.8 * syllables / words - 15.59 (Kincaid and others 1975).
"""

import re
from html.parser import HTMLParser

import textstat

#: Words the rule of vowel groups miscounts; whole words, lower case.
SYLLABLES = {
    "ileostomy": 5,
    "colostomy": 4,
    "urostomy": 4,
    "jejunostomy": 5,
    "barrier": 3,
    "material": 4,
    "january": 4,
    "february": 4,
    "litre": 2,
    "litres": 2,
    "reaction": 3,
    "area": 3,
    "being": 2,
    "doing": 2,
    "fluid": 2,
    "idea": 3,
    "once": 1,
    "quiet": 2,
    "people": 2,
    "creases": 2,
    "edges": 2,
    "inches": 2,
    "itches": 2,
    "touches": 2,
    "presses": 2,
    "sachet": 2,
    "something": 2,
    "somewhere": 2,
    "sometimes": 2,
    "every": 2,
    "evening": 2,
    "blisters": 2,
    "outlet": 2,
    "towards": 2,
    "loose": 1,
}
#: Words that textstat 0.7.3 hyphenates instead of counting, and how they are spoken.
TRADE = {"stoma": 2, **{word: SYLLABLES[word] for word in SYLLABLES if word.endswith("ostomy")}}
LINES = frozenset({"p", "li", "td"})


def syllables(word: str) -> int:
    """Vowel groups without the silent e; a figure counts as one."""
    plain = word.lower().strip("'")
    if plain in SYLLABLES:
        return SYLLABLES[plain]
    groups = len(re.findall(r"[aeiouy]+", plain))
    silent = re.search(r"([^aeiouyl]e|[^aeioudty]ed|[aeiouy]le|[^aeiou]es)$", plain)
    hissing = re.search(r"(s|x|z|ch|sh|c|g)es$", plain)
    return max(1, groups - (1 if silent and not hissing else 0))


def words(text: str) -> list[str]:
    """Words and figures; ``1 3/16`` is two."""
    return re.findall(r"[A-Za-z]+(?:'[a-z]+)?|\d+(?:[./]\d+)?", text)


def sentences(text: str) -> list[str]:
    """Split at full stops that end something, not inside figures."""
    return [part for part in re.split(r"[.!?](?:\s|$)", text) if words(part)]


def grade(lines: list[str]) -> float:
    """Flesch-Kincaid grade over all lines; each line ends its last sentence."""
    parts = [part for line in lines for part in sentences(line)]
    said = [word for part in parts for word in words(part)]
    return 0.39 * len(said) / len(parts) + 11.8 * sum(map(syllables, said)) / len(said) - 15.59


def words_a_sentence(lines: list[str]) -> float:
    """Average length of a sentence."""
    parts = [part for line in lines for part in sentences(line)]
    return sum(len(words(part)) for part in parts) / len(parts)


class _Lines(HTMLParser):
    """Text of the innermost paragraphs, list items and table cells."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.inside = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in LINES:
            self.inside += 1
            self.found.append("")

    def handle_endtag(self, tag: str) -> None:
        self.inside -= tag in LINES

    def handle_data(self, data: str) -> None:
        if self.inside:
            self.found[-1] += data


def lines_of(html: str) -> list[str]:
    """What a sheet says; headings, labels and whose sheet it is are left out."""
    parser = _Lines()
    parser.feed(html.partition("</header>")[2])
    parser.close()
    return [" ".join(line.split()) for line in parser.found if words(line)]


def spanish_syllables(word: str) -> int:
    """Vowel groups; an accented i or u, and two strong vowels in a row, are parted."""
    plain = re.sub(r"qu|gu(?=[eiéí])", "q", word.lower())
    strong, weak, parted = "aeoáéó", "iuüy", "íú"
    count, before = 0, ""
    for sign in plain:
        if sign in parted or (sign in strong and (not before or before in strong + parted)):
            count += 1
        elif sign in strong + weak:
            count += not before
        before = sign if sign in strong + weak + parted else ""
    return max(1, count)


def fernandez_huerta(lines: list[str]) -> float:
    """Ease of reading Spanish: 206.84 - 60 * syllables / words - 1.02 * words / sentences
    (Fernández Huerta 1959, with the corrected weight of sentences; from memory)."""
    parts = [p for line in lines for p in re.split(r"[.?](?:\s|$)", line) if p.strip("¿ ")]
    said = [word for part in parts for word in re.findall(r"[^\W\d_]+|\d+", part)]
    spoken = sum(1 if word.isdigit() else spanish_syllables(word) for word in said)
    return 206.84 - 60 * spoken / len(said) - 1.02 * len(said) / len(parts)


def grade_by_textstat(lines: list[str]) -> float:
    """The same formula over the counts of textstat 0.7.3 (words, sentences, syllables by its
    hyphenation), our trade's words put right. Its own grade rounds each part to a tenth."""
    text = " ".join(line if line[-1] in ".!?" else f"{line}." for line in lines)
    counted = textstat.lexicon_count(text)
    spoken = textstat.syllable_count(text)
    for word in map(str.lower, words(text)):
        if word in TRADE:
            spoken += TRADE[word] - textstat.syllable_count(word)
    parts = textstat.sentence_count(text)
    return float(0.39 * counted / parts + 11.8 * spoken / counted - 15.59)
