"""Static files in production: compressed, under names that change with their content."""

from whitenoise.storage import CompressedManifestStaticFilesStorage


class HashedModules(CompressedManifestStaticFilesStorage):
    """Imports between script modules name the hashed files too, so that an update never mixes
    new modules with old ones from a browser's cache."""

    support_js_module_import_aggregation = True
