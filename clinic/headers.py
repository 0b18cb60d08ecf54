"""What every answer asks of the browser beside the content policy."""

from collections.abc import Callable
from typing import Any

from django.conf import settings
from django.contrib.auth import SESSION_KEY
from django.http import HttpRequest, HttpResponse

#: What pages may use; files and photos are chosen in the browser's own window, which asks for none.
PERMITTED = {"publickey-credentials-get": "self", "publickey-credentials-create": "self"}
#: Closed to every page and to all that could ever be inside one.
CLOSED = (
    *("accelerometer", "ambient-light-sensor", "autoplay", "battery", "bluetooth", "camera"),
    *("clipboard-read", "clipboard-write", "display-capture", "encrypted-media", "fullscreen"),
    *("gamepad", "geolocation", "gyroscope", "hid", "idle-detection", "local-fonts"),
    *("magnetometer", "microphone", "midi", "payment", "picture-in-picture", "screen-wake-lock"),
    *("serial", "usb", "web-share", "xr-spatial-tracking"),
)
PERMISSIONS = ", ".join(
    [*(f"{name}=()" for name in CLOSED), *(f"{name}=({who})" for name, who in PERMITTED.items())]
)
#: On signing out. Not "storage": entries that could not be sent wait there, encrypted, for their
#: author (static/js/sealed.js). Not "cookies": browsers then drop those of every program under the
#: same domain; our own are taken away by name.
CLEARED = '"cache"'

Answer = Callable[[HttpRequest], HttpResponse]


def headers_middleware(get_response: Answer) -> Answer:
    """Nothing of the device that no page needs; nothing left in the browser after signing out.
    Just inside the session's middleware: it asks whether somebody was signed in before, and sets
    cookies last."""

    def answer(request: HttpRequest) -> HttpResponse:
        signed_in = SESSION_KEY in request.session
        response = get_response(request)
        response.headers["Permissions-Policy"] = PERMISSIONS
        if signed_in and SESSION_KEY not in request.session:
            response.headers["Clear-Site-Data"] = CLEARED
            same_site: Any = settings.CSRF_COOKIE_SAMESITE
            response.delete_cookie(settings.CSRF_COOKIE_NAME, samesite=same_site)
        return response

    return answer
