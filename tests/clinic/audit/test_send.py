"""The audit trail sent elsewhere: in the chain's order, each row once, and what no longer fits what
was sent before is refused."""

import json
import socket
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from clinic.audit import chain
from tests.clinic.audit.test_chain import ENTRY_GONE, UNLINKED, as_owner, write

pytestmark = pytest.mark.django_db


def lines(file: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in file.read_text().splitlines()]


def test_a_file_goes_on_where_it_ends(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(chain, "A_CHUNK", 2)
    kept = tmp_path / "audit.jsonl"
    call_command("send_audit", "--to", str(kept))
    assert "0 rows sent." in capsys.readouterr().out
    for rows, told in ((3, "3 rows sent.\nLast row: 3 "), (2, "2 rows sent.\nLast row: 5 ")):
        write(rows)
        call_command("send_audit", "--to", str(kept))
        assert told in capsys.readouterr().out
    call_command("send_audit", "--to", str(kept))
    assert "0 rows sent.\nLast row: 5 " in capsys.readouterr().out
    assert [row["number"] for row in lines(kept)] == [1, 2, 3, 4, 5]
    assert kept.stat().st_mode & 0o077 == 0
    call_command("send_audit", "--to", str(tmp_path / "b"), "--since", "3")
    assert [row["number"] for row in lines(tmp_path / "b")] == [4, 5]


def test_what_was_sent_is_enough_to_compute_the_chain_again(tmp_path: Path) -> None:
    write(3)
    call_command("send_audit", "--to", str(tmp_path / "a"))
    before = chain.BEGINNING
    for row in lines(tmp_path / "a"):
        number, before_next, *columns = row.values()
        assert chain.hash_of(before, number, tuple(columns)) == before_next
        before = before_next
    assert list(row)[2:] == list(chain.COLUMNS)


CUT = "DELETE FROM audit_accesslink WHERE number > 1"


def test_a_chain_that_was_written_again_is_not_sent_on(tmp_path: Path) -> None:
    kept = tmp_path / "a"
    write(3)
    call_command("send_audit", "--to", str(kept))
    sent = kept.read_text()
    as_owner(CUT, UNLINKED)
    with pytest.raises(CommandError, match="no row 3, which was sent before"):
        call_command("send_audit", "--to", str(kept))
    with pytest.raises(CommandError, match="no row 3"):
        call_command("send_audit", "--to", str(kept), "--since", "3")
    write(3)
    with pytest.raises(CommandError, match="Row 3 has another hash"):
        call_command("send_audit", "--to", str(kept))
    assert kept.read_text() == sent


@pytest.mark.parametrize("end", ['{"number": 1, "ha', '{"number": 1}\n', "[]\n", "x\n"])
def test_a_file_that_ends_otherwise_is_left_alone(tmp_path: Path, end: str) -> None:
    (tmp_path / "a").write_text(end)
    write()
    with pytest.raises(CommandError, match="no whole row"):
        call_command("send_audit", "--to", str(tmp_path / "a"))
    assert (tmp_path / "a").read_text() == end


def test_a_row_without_its_entry_stops_the_sending(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(chain, "A_CHUNK", 1)
    write(3)
    as_owner(ENTRY_GONE)
    with pytest.raises(CommandError, match=r"Row 3 .* lost its entry.* last row sent is 2\."):
        call_command("send_audit", "--to", str(tmp_path / "a"))
    assert [row["number"] for row in lines(tmp_path / "a")] == [1, 2]


@pytest.fixture
def log_service() -> Iterator[socket.socket]:
    """One that listens on this machine."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as listening:
        listening.bind(("127.0.0.1", 0))
        listening.settimeout(20)
        yield listening


def test_a_log_service_gets_a_message_a_row(
    log_service: socket.socket, capsys: pytest.CaptureFixture[str]
) -> None:
    write(3)
    port = log_service.getsockname()[1]
    call_command("send_audit", "--to", f"syslog:127.0.0.1:{port}", "--since", "1")
    for number in (2, 3):
        said = log_service.recv(65536).decode().rstrip("\0")
        assert said.startswith("<86>clinic-audit: {")
        assert json.loads(said.partition(": ")[2])["number"] == number
    assert "2 rows sent.\nLast row: 3 " in capsys.readouterr().out


def test_a_place_that_takes_nothing_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write()
    nowhere = "clinic.audit.management.commands.send_audit.LOCAL"
    monkeypatch.setattr(nowhere, str(tmp_path / "no such socket"))
    for to in ("syslog", str(tmp_path / "no such folder" / "a"), "syslog:514", "syslog:host:x"):
        with pytest.raises(CommandError):
            call_command("send_audit", "--to", to)
    with pytest.raises(CommandError, match="number of a row"):
        call_command("send_audit", "--to", str(tmp_path / "a"), "--since", "-1")
