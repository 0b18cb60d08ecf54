"""What is cited, in words; plans signed earlier cite whole sources and still say which."""

from __future__ import annotations

from planning.evidence.citation import cite, cited_words


def test_a_statement_names_its_source_and_what_was_read_for_it() -> None:
    assert cited_words("persson2010/ileostomy") == (
        "Persson 2010, Colorectal Dis 12:971 (abstract read)"
    )
    assert cited_words("mcnichol2021/depth").endswith("(from memory, unverified)")


def test_one_source_may_have_several_marks() -> None:
    assert cited_words("lcd/maxima").endswith("(read in another text that reports it)")
    assert cite(("hightech/outline", "design_value")) == (
        "Emergency Management of the Hi-Tech Patient, stoma chapter (edition year not noted) "
        "(excerpt read); design value of this planner, no source"
    )


def test_a_whole_source_claims_nothing_to_have_been_read() -> None:
    words = cited_words("persson2010")
    assert words == "Persson 2010, Colorectal Dis 12:971 (what was read is not on record)"


def test_a_statement_taken_off_the_list_still_names_its_source() -> None:
    assert cited_words("persson2010/taken_off") == cited_words("persson2010")


def test_an_unknown_id_is_its_own_words() -> None:
    assert cited_words("unknown1900") == "unknown1900"
