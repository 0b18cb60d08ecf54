"""How tests and pictures start the browser."""

# No first-run pages, no updates, no talk with anyone: the tests run without a network.
CHROMIUM_ARGUMENTS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
