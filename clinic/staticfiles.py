"""Static files in production: compressed, under names that change with their content."""

from whitenoise.storage import CompressedManifestStaticFilesStorage


class HashedModules(CompressedManifestStaticFilesStorage):
    """Imports between our script modules name the hashed files too, so that an update never
    mixes new modules with old ones from a browser's cache.

    Django has this for every script; packages ship some that do not hold together, so it is
    asked for our own folder alone.
    """

    patterns = (
        *CompressedManifestStaticFilesStorage.patterns,
        ("js/*.js", CompressedManifestStaticFilesStorage._js_module_import_aggregation_patterns[1]),
    )
