"""A browser and its device in words, from what the browser says of itself. It may say anything:
the words help a person to know their own devices again, and nothing is decided by them."""

#: (what it says, the name); the first that is found. Most claim to be several.
BROWSERS = (
    ("Edg", "Edge"),
    ("OPR/", "Opera"),
    ("SamsungBrowser/", "Samsung Internet"),
    ("Firefox/", "Firefox"),
    ("FxiOS/", "Firefox"),
    ("Chrome/", "Chrome"),
    ("CriOS/", "Chrome"),
    ("Safari/", "Safari"),
)
SYSTEMS = (
    ("iPhone", "iPhone"),
    ("iPad", "iPad"),
    ("Android", "Android"),
    ("Windows", "Windows"),
    ("Macintosh", "Mac"),
    ("CrOS", "Chromebook"),
    ("Linux", "Linux"),
)


def device_words(user_agent: str) -> str:
    """Such as *Firefox on Windows*, *Chrome on an Android phone*."""
    browser = _first(BROWSERS, user_agent) or "Unknown browser"
    system = _first(SYSTEMS, user_agent)
    if system == "Android":
        system = "an Android phone" if "Mobile" in user_agent else "an Android tablet"
    elif system in {"iPhone", "iPad", "Mac", "Chromebook"}:
        system = f"an {system}" if system.startswith("i") else f"a {system}"
    return f"{browser} on {system or 'an unknown device'}"


def _first(named: tuple[tuple[str, str], ...], text: str) -> str:
    return next((name for said, name in named if said in text), "")
