"""Invented names enough for a hundred thousand people, made from parts."""

_BEGIN = (
    "Ald", "Bram", "Cald", "Dun", "Elm", "Farn", "Gris", "Holt", "Ingle", "Jar", "Kest", "Lang",
    "Mar", "Nether", "Oaken", "Pell", "Quar", "Raven", "Stan", "Thorn", "Ulver", "Vane", "Whit",
    "Yar", "Zeal", "Brock", "Crane", "Drift", "Ember", "Frost",
)  # fmt: skip
_END = (
    "acre", "beck", "by", "combe", "croft", "dale", "den", "er", "field", "ford", "garth", "gate",
    "ham", "hurst", "ley", "low", "mead", "mere", "more", "ness", "ridge", "shaw", "side", "stead",
    "ston", "thwaite", "ton", "wade", "well", "wick", "wold", "worth",
)  # fmt: skip
FAMILY = tuple(begin + end for begin in _BEGIN for end in _END)
_GIVEN_BEGIN = (
    "Al", "Be", "Cor", "Da", "El", "Fe", "Gil", "Hal", "Is", "Jo", "Ka", "Lu", "Ma", "Ne", "Or",
    "Pe", "Ro", "Sa", "Ti", "Wi",
)  # fmt: skip
_GIVEN_END = (
    "bert", "da", "fric", "la", "lin", "mund", "na", "ra", "ris", "son", "tta", "vin",
)  # fmt: skip
GIVEN = tuple(begin + end for begin in _GIVEN_BEGIN for end in _GIVEN_END)
