"""Sentences about the shelf: what lies on it, and what can not be brought to it."""

SENTENCES: dict[str, str] = {
    "shelf.on-wall": "{count} on the wall",
    "shelf.none-on-wall": "not on the wall yet",
    "shelf.cannot-be-made": "Can not be made: {why}",
    "shelf.spoken": "{name}, {size}, {placed}",
    "shelf.spoken-version": "{name}, {version}, {size}, {placed}",
    "shelf.spoken-favorite": "{spoken}, favorite",
    "shelf.layer": "layer {layer} of {layers}",
    "shelf.kind": "kind {kind} of {kinds}",
    "shelf.kind-and-layer": "kind {kind} of {kinds}, layer {layer} of {layers}",
    "shelf.print-repeat": "repeat {scale}",
    "shelf.print-turned": "turned {turn}",
    "shelf.copy-name": "{name} ({number})",
    "shelf.batch": "One batch makes {count:block|blocks}.",
    "shelf.warning": "Mind {step}: {said}",
    # what is typed
    "shelf.not-a-price": '"{text}" is no price.',
    "shelf.not-a-percentage": '"{text}" is no percentage.',
    "shelf.write-percentage": "Write a number such as 3 or 2.5.",
    "shelf.write-price": "Write a number such as 12.50, or leave it empty.",
    "shelf.size-nothing": "A size of {size} is nothing.",
    "shelf.write-size": 'Write a size such as "6 1/2" or "16,5 cm".',
    # pictures
    "shelf.photo-damaged": "This picture is damaged: it can not be read to its end.",
    "shelf.photo-too-large": "This picture is larger than {most} MB.",
    "shelf.no-photo-there": "There is no picture on the clipboard.",
    "shelf.copy-photo-first": "Copy a photo of cloth first.",
}
