"""Sentences about files and what can be wrong with them."""

SENTENCES: dict[str, str] = {
    # why the operating system refused
    "files.disk-full": "The disk is full.",
    "files.quota-used": "Your share of the disk is used up.",
    "files.too-big-for-disk": "The disk does not take a file this large.",
    "files.disk-read-only": "The disk can only be read.",
    "files.not-allowed": "This folder or file is not yours to use.",
    "files.disk-fault": "The disk reports a fault.",
    "files.too-many-open": "Too many files are open.",
    "files.not-there": "There is no such file or folder.",
    "files.is-folder": "It is a folder.",
    "files.link-circle": "It is a link that leads back to itself.",
    "files.name-too-long": "The name is too long.",
    "files.network-gone": "The network drive does not answer.",
    "files.other-refusal": "The system says: {why}.",
    # reading and saving
    "files.not-read": "The file was not read. {why}",
    "files.read-hint": "Check that it is where you think and that you may read it.",
    "files.not-saved": "Not saved. {why} What was on the disk before is untouched.",
    "files.save-hint": "Save a copy somewhere else, or mend this and save again.",
    "files.save-unsure": "The file is written, but the disk did not confirm it. {why}",
    "files.save-again-hint": "Save again, and keep a copy somewhere else.",
    "files.not-a-file": "This is not a file but a folder, a device or a pipe.",
    "files.too-large": "This is larger than {most} MB, so it is no design.",
    "files.marked-read-only": "Not saved. The file is marked as one that may only be read.",
    "files.read-back-differs": "Not saved. The disk gave back other data than were written to it.",
    "files.not-readable-back": "Not saved. The design would not open again as it is now.",
    "files.held-elsewhere": "Not saved. Another window ({who}) has this file open.",
    "files.held-hint": "Save under another name, or close it there first.",
    "files.changed-on-disk": "Not saved. The file has been changed by another program since it was opened.",
    # what kind of file
    "files.empty": "The file is empty.",
    "files.other-kind": "This is a file of the kind {kind}, not a design.",
    "files.no-design": "This is not a design.",
    "files.choose-hint": "Choose a file that ends in .piecewright.",
    "files.is-recipe": "This is a recipe for a block, not a design.",
    # versions
    "files.newer": (
        "A newer Piecewright made this (format {version}; this one knows {newest}) and uses things "
        "unknown here."
    ),
    "files.newer-hint": "Open it with a newer Piecewright. The file is left as it is.",
    "files.newer-read-only": (
        "A newer Piecewright made this file (format {version}; this one knows {newest}). It can be "
        "looked at, and saved under another name; the file itself is left as it is."
    ),
    "files.newer-kept": (
        "Not saved. A newer Piecewright made this file (format {version}; this one knows {newest}), and "
        "saving would lose what only that one knows."
    ),
    "files.unknown-version": (
        "This is format {version}, which no Piecewright wrote; the newest known here is {newest}."
    ),
    "files.version-hint": 'A design of today begins with "piecewright": 1.',
    "files.no-version": "The format version is missing.",
    "files.bad-version": "What it gives as its format version is none.",
    "files.too-many-parts": "It holds more lists and objects than the {most} that the largest design needs.",
    "files.recipes-too-large": "The recipes together are larger than {most} kB.",
    "files.too-many-of-a-kind": "There are {count} of these; {most} are the most.",
    # the zip
    "files.damaged-zip": "The file is cut off or damaged.",
    "files.damaged-hint": "Look for an earlier copy or a backup; this file is left as it is.",
    "files.too-many-entries": "It holds {count:entry|entries}; a design has at most {most}.",
    "files.no-design-inside": "It is a zip file without design.json, so it is no design.",
    "files.zip-hint": "A design holds design.json, and its pictures in the folder pictures.",
    "files.climbing-entry": "It holds {name}, a name that leads out of the design.",
    "files.entry-twice": "It holds {name} twice.",
    "files.encrypted": "{name} in it is locked with a password.",
    "files.odd-packing": "{name} in it is packed in a way that designs do not use.",
    "files.entry-too-large": "{name} in it unpacks to more than {most} MB.",
    "files.foreign-entry": "It holds {name}, which does not belong in a design.",
    # pictures
    "files.too-many-pictures": "There are {count:picture|pictures}; a design carries at most {most}.",
    "files.pictures-too-large": "The pictures together are larger than {most} MB.",
    "files.bad-picture-name": "{name} is not a name for a picture.",
    "files.picture-name-hint": "Use letters, digits, spaces and dots, without a folder.",
    "files.picture-too-large": "The picture is larger than {most} MB.",
    "files.no-picture": "This is not a PNG, JPEG or WebP picture, whatever its name says.",
    "files.picture-hint": "Save the picture anew as PNG or JPEG.",
    "files.picture-too-many-pixels": "The picture is {width} x {height} pixels; {most} million are the most.",
    "files.picture-shrink-hint": "Make it smaller first.",
    "files.picture-missing": (
        "The picture {picture} of the fabric {fabric} is not in the file; its color is shown instead."
    ),
    "files.no-pictures-in-json": "Not saved. Plain JSON can not carry pictures.",
    "files.save-as-design-hint": "Save it under a name that ends in .piecewright.",
    # the edit journal
    "files.journal-not-written": "The change is made, but it could not be noted for a recovery. {why}",
    "files.journal-hint": "Save the design now.",
    "files.journal-unreadable": "This is not a journal of edits that can be read.",
    "files.journal-newer": (
        "A newer Piecewright wrote this journal of edits (format {version}; this one knows {newest})."
    ),
    "files.journal-kept": "{why} It is kept aside as {place}.",
    "files.journal-damaged": (
        "The journal is damaged: {edits:change|changes} could be read, and later ones are lost."
    ),
    "files.replay-stopped": "{done:change|changes} came back; change {number} could not be made again. {why}",
    # recipes
    "files.recipe-not-changed": (
        "Not changed. This recipe could not be read here, so it is left as it is, byte for byte."
    ),
    "files.recipe-newer-kept": "Not changed. A newer Piecewright made this recipe; it is left as it is, byte for byte.",
    "files.recipe-copy-hint": "Save under another name.",
    "files.recipe-name-taken": 'Another recipe on your shelf is named "{name}".',
    "files.recipe-choose-name": "Choose another name.",
    "files.recipe-no-name": "A recipe needs a name of 1 to {most} letters.",
    "files.recipe-shelf-full": "Your shelf holds {most} recipes, and no more.",
    "files.recipe-take-off": "Take one off first.",
    # preferences
    "files.preferences-damaged": (
        "Your preferences could not be read and begin anew; the old ones are kept as {place}."
    ),
    "files.preference-reset": (
        "The preference {name} had a value that means nothing here, and is as it was at first."
    ),
}
