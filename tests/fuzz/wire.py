"""What a browser would not send: broken bodies, wrong charsets, odd headers and paths."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import Any
from urllib.parse import quote_from_bytes

from tests.fuzz.values import encoded, some

FORM = "application/x-www-form-urlencoded"
EDGE = "edge-of-a-part"
METHODS = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "FOO", "post")
CHARSETS = ("latin-1", "utf-16", "utf-7", "hex", "rot13", "idna", "no-such", "utf-8-sig")
KINDS = (
    FORM,
    f"multipart/form-data; boundary={EDGE}",
    "multipart/form-data",
    "multipart/form-data; boundary=",
    f"multipart/form-data; boundary={'x' * 500}",
    "multipart/form-data; boundary=\xe9",
    "multipart/mixed; boundary=a",
    "application/json",
    "text/plain",
    "",
    "/",
    ";;;",
)
HEADERS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("HTTP_HX_REQUEST", ("true", "maybe")),
    ("HTTP_HX_TARGET", ("plan", "\xff")),
    ("HTTP_HX_CURRENT_URL", ("http://[", "http://testserver/\xff", "x")),
    ("HTTP_HX_CURRENT_URL_URI_AUTOENCODED", ("true",)),
    ("HTTP_REFERER", ("http://[::1", "//", "javascript:x", "http://testserver/patients/")),
    ("HTTP_HOST", ("", "a b", "[::1", "testserver:99999", "testserver:x", "evil.example")),
    ("HTTP_ACCEPT_LANGUAGE", ("x" * 5000, ",,;q=x", "es;q=9", "\xe9")),
    ("HTTP_ACCEPT", ("", "image/*", "a/b;q=x")),
    ("HTTP_X_FORWARDED_FOR", ("", "a, b", "999.1.1.1")),
    ("REMOTE_ADDR", ("", "x", "::1%eth0")),
    ("HTTP_RANGE", ("bytes=5-", "bytes=-", "bytes=9-1", "x")),
    ("HTTP_IF_NONE_MATCH", ("*", 'W/"x', '"\xe9"')),
    ("HTTP_IF_MODIFIED_SINCE", ("x", "Mon, 99 Foo 99999 25:61:61 GMT")),
    (
        "HTTP_COOKIE",
        ("session=\0", 'session="\\000"', "session=\xff", "csrftoken; session", "=;"),
    ),
    ("HTTP_X_REQUESTED_WITH", ("fetch", "XMLHttpRequest")),
    # Longer than what is sent breaks the test client itself.
    ("CONTENT_LENGTH", ("-1", "x", "3", "9" * 20, "")),
)


def headers(random: Random) -> dict[str, str]:
    """A few odd ones."""
    return {
        name: random.choice(values)
        for name, values in random.sample(HEADERS, random.choice((0, 1, 1, 2)))
    }


def content_type(random: Random) -> str:
    """Of a body; often with a charset that is not ours."""
    kind = random.choice(KINDS)
    return f"{kind}; charset={random.choice(CHARSETS)}" if random.random() < 0.4 else kind


def body(random: Random, fields: list[tuple[str, str]], values: Sequence[str]) -> bytes:
    """Fields in some wrapping, or none at all."""
    make: Any = random.choice((_many, _cut, _part_by_part, _file_parts, _raw, _json))
    return bytes(make(random, fields, values))


def _many(random: Random, fields: list[tuple[str, str]], values: Sequence[str]) -> bytes:
    name = fields[0][0] if fields else "x"
    return b"&".join([encoded(name) + b"=1"] * random.choice((999, 1001, 3000)))


def _cut(random: Random, fields: list[tuple[str, str]], values: Sequence[str]) -> bytes:
    whole = multipart(fields, {})
    return whole[: random.randrange(len(whole) + 1)]


def _part_by_part(random: Random, fields: list[tuple[str, str]], values: Sequence[str]) -> bytes:
    """Parts with headers of their own that make no sense."""
    odd = (
        b"Content-Transfer-Encoding: base64",
        b"Content-Transfer-Encoding: \xff",
        b"Content-Type: text/plain; charset=hex",
        b"Content-Type: text/plain; charset=utf-16",
        b"Content-Disposition: form-data",
        b"Content-Disposition: form-data; name*=utf-8''%ff",
        b"no colon",
        b"X: " + b"y" * 70_000,
    )
    lines = []
    for name, value in fields or [("a", "b")]:
        lines += [b"--" + EDGE.encode(), random.choice(odd)]
        lines += [b'Content-Disposition: form-data; name="' + encoded(name) + b'"', b""]
        lines += [encoded(value)]
    return b"\r\n".join([*lines, b"--" + EDGE.encode() + b"--", b""])


def _file_parts(random: Random, fields: list[tuple[str, str]], values: Sequence[str]) -> bytes:
    """More files than are taken, or with names no file may have."""
    names = [some(random, values)[:300] for _ in range(random.choice((1, 3, 120)))]
    part = b'--%b\r\nContent-Disposition: form-data; name="picture"; filename="%b"\r\n\r\nx\r\n'
    made = [part % (EDGE.encode(), encoded(name)) for name in names]
    return b"".join([*made, b"--" + EDGE.encode() + b"--\r\n"])


def _raw(random: Random, fields: list[tuple[str, str]], values: Sequence[str]) -> bytes:
    return random.randbytes(random.choice((0, 1, 50, 5000)))


def _json(random: Random, fields: list[tuple[str, str]], values: Sequence[str]) -> bytes:
    return random.choice((b"[" * 100_000, b'{"a": ' * 5000, encoded(some(random, values))))


def multipart(fields: list[tuple[str, str]], files: dict[str, tuple[str, bytes]]) -> bytes:
    """As a browser wraps it, but for what is wrong in the values."""
    edge = EDGE.encode()
    made = [
        b'--%b\r\nContent-Disposition: form-data; name="%b"\r\n\r\n%b\r\n'
        % (edge, encoded(name).replace(b'"', b"%22"), encoded(value))
        for name, value in fields
    ]
    made += [
        b'--%b\r\nContent-Disposition: form-data; name="%b"; filename="%b"\r\n'
        b"Content-Type: image/jpeg\r\n\r\n%b\r\n"
        % (edge, encoded(name), encoded(filename), content)
        for name, (filename, content) in files.items()
    ]
    return b"".join([*made, b"--" + edge + b"--\r\n"])


def quoted(text: str) -> str:
    """In an address, broken UTF-8 as it is."""
    return quote_from_bytes(encoded(text), safe="")


def urlencoded(fields: list[tuple[str, str]]) -> str:
    return "&".join(f"{quoted(name)}={quoted(value)}" for name, value in fields)
