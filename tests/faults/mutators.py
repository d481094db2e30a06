"""Broken and hostile design files, made from real ones with a knowledge of what they are made of."""

import copy
import io
import json
import warnings
import zipfile
from collections.abc import Callable
from random import Random
from typing import Any

from piecewright.files.container import MIME_TYPE, pack
from piecewright.model.codec import to_plain
from tests.core.files.sample_design import RAILS, picture, sample_design, sample_pictures

Plain = dict[str, Any]

DESIGN = json.dumps(to_plain(sample_design(3, 2)), ensure_ascii=False)
PICTURES = sample_pictures()
FILES = (
    pack(DESIGN.encode(), PICTURES),
    DESIGN.encode(),
    json.dumps(to_plain(sample_design(1, 1)), indent=1).encode(),
)


def mutated(number: int, seed: int) -> bytes:
    """The broken file of that number: always the same one."""
    random = Random(f"{seed} {number}")
    way = random.choices(_WAYS, _WEIGHTS)[0]
    return way(random)


def heavy_files() -> dict[str, bytes]:
    """Files in which nothing is damaged, that are as large as may be, or larger, at one place each."""
    changes: dict[str, Callable[[Plain], object]] = {
        "fabrics": lambda plain: plain.update(fabrics=_fabrics(200_000), next_id=999_999_999),
        "fabric twice at the end": lambda plain: plain.update(fabrics=[*_fabrics(4990), *_fabrics(1)]),
        "id of another kind": lambda plain: plain.update(fabrics=[*_fabrics(4990), _fabric("r5")]),
        "unknown keys": lambda plain: plain.update({f"{number}": 1 for number in range(1_000_000)}),
        "sizes": lambda plain: plain["blocks"][0].update(
            sizes={f"S{number}": "4" for number in range(300_000)}
        ),
        "letters": lambda plain: plain["blocks"][0].update(
            fabrics={f"A{number}": ["f1"] for number in range(200_000)}
        ),
        "layers": lambda plain: plain["blocks"][0].update(fabrics={"A": ["f1"] * 2_000_000}),
        "unknown fabrics": lambda plain: plain["blocks"][0].update(
            fabrics={"A": [f"f{n}" for n in range(9, 1_000_000)]}
        ),
        "placements": lambda plain: plain["arrangements"].append(_full_quilt(1000, 290)),
        "arrangements": lambda plain: plain.update(arrangements=plain["arrangements"][1:] * 50_000),
        "borders": lambda plain: plain["arrangements"][0].update(
            borders=[{"fabric": "f1", "width": "1"}] * 200_000
        ),
        "inks": lambda plain: plain["fabrics"][3]["print"].update(inks=["#aabbcc"] * 1_000_000),
        "name": lambda plain: plain.update(name="x" * 15_000_000),
        "length": lambda plain: plain["fabrics"][0].update(price="1/" + "9" * 1_000_000),
        "recipes": lambda plain: plain.update(
            recipes=[{"id": f"r{n}", "recipe": RAILS} for n in range(9, 20_000)]
        ),
        "as many recipes as may be": lambda plain: plain.update(
            recipes=[{"id": f"r{n}", "recipe": RAILS} for n in (5, *range(10, 440))], next_id=5000
        ),
        "pieces": lambda plain: _recipe(plain)["steps"][2].update(sew=["a"] * 1_000_000),
        "steps": lambda plain: _recipe(plain).update(steps=_recipe(plain)["steps"] * 2000),
        "names to work out": lambda plain: _recipe(plain)["let"].update(
            {f"L{n}": "F*F" for n in range(15_000)}
        ),
        "names worked out from others": lambda plain: _recipe(plain)["let"].update(
            {"L0": "F", **{f"L{n}": f"L{n - 1}+L{n // 2}" for n in range(1, 9000)}}
        ),
        "as many fabrics as may be": lambda plain: plain.update(fabrics=_fabrics(5000), next_id=999_999_999),
    }
    return {name: _changed(change) for name, change in changes.items()}


def bytes_changed(random: Random) -> bytes:
    """A real file as a careless disk leaves it."""
    return _damage(random, random.choice(FILES))


def entries_changed(random: Random) -> bytes:
    """A zip whose entries are others, or are packed otherwise."""
    entries = [("mimetype", MIME_TYPE.encode()), ("design.json", DESIGN.encode())]
    entries += [(f"pictures/{name}", data) for name, data in PICTURES.items()]
    at = random.randrange(len(entries))
    name, data = entries[at]
    changed = [
        [(random.choice(_NAMES), data)],
        [(name, data), (random.choice(_NAMES), random.choice(_CONTENTS))],
        [(name, random.choice(_CONTENTS))],
        [(name, _damage(random, data))],
        [],
        [(name, data), (name, data)],
    ]
    entries[at : at + 1] = random.choice(changed)
    return _zipped(entries, random.choice(_METHODS))


def records_changed(random: Random) -> bytes:
    """A zip in whose headers a few fields say something else."""
    data = bytearray(FILES[0])
    for _ in range(random.choice([1, 1, 2])):
        signature, length = random.choice([(b"PK\3\4", 30), (b"PK\1\2", 46), (b"PK\5\6", 22)])
        places = [at for at in range(len(data) - length + 1) if data.startswith(signature, at)]
        if places:
            at, width = random.choice(places) + random.randrange(4, length - 3), random.choice([2, 4])
            field = random.choice(
                [0, 1, 8, 9, 12, 99, 0x7FFF, 0xFFFF, 0x7FFFFFFF, 0xFFFFFFFF, random.getrandbits(32)]
            )
            data[at : at + width] = field.to_bytes(4, "little")[:width]
    return bytes(data)


def picture_changed(random: Random) -> bytes:
    """A zip with a picture that is damaged in its first bytes, where its kind and size stand."""
    name = random.choice(list(PICTURES))
    data = bytearray(PICTURES[name])
    for _ in range(random.choice([1, 2, 4])):
        data[random.randrange(min(40, len(data)))] = random.choice([0, 1, 0x7F, 0xFF, random.randrange(256)])
    return pack(DESIGN.encode(), {**PICTURES, name: bytes(data)})


def text_changed(random: Random) -> bytes:
    """A design's JSON with a few tokens exchanged, dropped or doubled."""
    tokens = list(_tokens(random.choice(FILES[1:]).decode()))
    for _ in range(random.choice([1, 1, 2, 3])):
        at = random.randrange(len(tokens))
        tokens[at : at + 1] = random.choice(
            [[], [tokens[at]] * 2, [random.choice(_TOKENS)], [random.choice(tokens)]]
        )
    return _file(random, "".join(tokens).encode("utf-8", "surrogatepass"))


def tree_changed(random: Random) -> bytes:
    """A design that is JSON still, with a few of its values, keys or items exchanged, dropped, doubled or swapped."""
    plain: Plain = json.loads(DESIGN)
    for _ in range(random.choice([1, 1, 1, 2, 4])):
        _change_tree(random, plain)
    return _file(
        random, json.dumps(plain, ensure_ascii=random.random() < 0.5).encode("utf-8", "surrogatepass")
    )


_WAYS: tuple[Callable[[Random], bytes], ...] = (
    bytes_changed,
    entries_changed,
    records_changed,
    picture_changed,
    text_changed,
    tree_changed,
)
_WEIGHTS = (10, 12, 10, 6, 12, 50)

_NAMES = (
    "../design.json", "/design.json", "C:\\design.json", "design.json", "pictures/", "pictures/x.png",
    "pictures/../x",
    "pictures/a/b.png", "x.svg", " ", "pictures/" + "n" * 500, "pictures/\u202egnp.png", "DESIGN.JSON", "mimetype",
)  # fmt: skip
_CONTENTS = (
    b"", b"<svg/>", b"{}", b"null", b"\x89PNG\r\n\x1a\n", picture("PNG"), picture("JPEG"), picture("WEBP"), b"GIF89a",
    b"PK\x03\x04", b"[" * 3000, b'{"piecewright":2}', b'{"piecewright":1,"name":"x"}', bytes(100_000),
    b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\xff\xff\xff\xff\xff\xff\xff\xff",
)  # fmt: skip
_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED, zipfile.ZIP_DEFLATED, zipfile.ZIP_BZIP2)
_VALUES: tuple[Any, ...] = (
    None, True, False, 0, 1, -1, 2, 90, 2**31, 2**63, -(2**70), 10**4000, 0.5, -0.0, 1e308, 1e-320,
    "", " ", "0", "-1", "1", "6 1/2", "1/3", "4 1/3", "1/0", "0/0", "9" * 5000, "1/" + "9" * 90, "1e9", "1e999999999",
    "16,5 cm", "2 m", "1/4 yd", "½", "∞", "nan", "6 1/2 in", "\ud800", "\u202e", "\0", "\n", "x" * 100_001,
    "f1", "f2", "b6", "r5", "f999999999", "F1", "#FFFFFF", "#aabbcc", "../x.png", "a/b", "dots", "on point",
    "A", "A B", "a.1", "name.*", "F + 2*seam", "F/0", "(((((F", "F^9", "seam",
    [], [[]], {}, {"A": ["f1"]}, {"F": "4"}, ["f1"] * 2000, [{}] * 50, {"id": "f9", "name": "x", "color": "#000000"},
)  # fmt: skip
_KEYS = (
    "hexagons", "", "__class__", "name", "id", "recipe", "note", "turn", "width", "F", "A", "\ud800", "\0", "k" * 9999,
)  # fmt: skip
_TOKENS = (
    ",", ":", "{", "}", "[", "]", '"', "null", "true", "NaN", "-Infinity", "1e999", "-", "0x1", "9" * 5000, "1.5",
    "'a'", "//x", '"\\ud800"', '"\\x"', '"name"', '"6 1/2"', "\ufeff", "\x00", "\ud800", "[" * 2000, '{"a":' * 2000,
)  # fmt: skip


def _changed(change: Callable[[Plain], object]) -> bytes:
    plain: Plain = json.loads(DESIGN)
    change(plain)
    return json.dumps(plain, ensure_ascii=False).encode()


def _recipe(plain: Plain) -> Plain:
    recipe: Plain = plain["recipes"][0]["recipe"]
    return recipe


def _fabric(name: str) -> Plain:
    return {"id": name, "name": "x", "color": "#aabbcc"}


def _fabrics(count: int) -> list[Plain]:
    return [_fabric(f"f{number}") for number in range(1, count + 1)]


def _full_quilt(rows: int, columns: int) -> Plain:
    placements = [{"column": column, "block": "b6"} for column in range(columns)]
    lattice = {"unit": "4", "columns": columns, "rows": rows}
    return {
        "name": "x",
        "lattice": lattice,
        "rows": [{"row": row, "placements": placements} for row in range(rows)],
    }


def _file(random: Random, text: bytes) -> bytes:
    return pack(text, PICTURES) if random.random() < 0.5 else text


def _damage(random: Random, data: bytes) -> bytes:
    for _ in range(random.choice([1, 1, 2, 5])):
        at = random.randrange(len(data) + 1)
        length = random.choice([1, 1, 2, 8, 200])
        piece, rest = data[at : at + length], data[at + length :]
        others = [random.randbytes(len(piece)), b"", random.randbytes(length) + piece, piece + piece]
        data = data[:at] + random.choice(others) + (rest if random.random() < 0.9 else b"")
    return data


def _zipped(entries: list[tuple[str, bytes]], method: int) -> bytes:
    made = io.BytesIO()
    with warnings.catch_warnings(), zipfile.ZipFile(made, "w") as archive:
        warnings.simplefilter("ignore", UserWarning)  # the same name twice is meant
        for name, data in entries:
            archive.writestr(zipfile.ZipInfo(name), data, method)
    return made.getvalue()


def _tokens(text: str) -> list[str]:
    tokens, string = [""], False
    for before, sign in zip(" " + text, text, strict=False):
        if string:
            tokens[-1] += sign
            string = sign != '"' or before == "\\"
        elif sign in '{}[],:"':
            tokens.append(sign)
            string = sign == '"'
        else:
            tokens[-1] += sign
    return tokens


def _change_tree(random: Random, plain: Plain) -> None:
    places = _places(plain)
    if not places:
        return
    holder, key = random.choice(places)
    other_holder, other_key = random.choice(places)
    match random.randrange(8):
        case 0:
            del holder[key]
        case 1 if isinstance(holder, dict):
            holder[random.choice(_KEYS)] = holder.pop(key)
        case 2 if isinstance(holder, list):
            text = json.dumps(holder[key])
            holder[key : key + 1] = [json.loads(text) for _ in range(1500 if len(text) < 300 else 2)]
        case 3:
            holder[key], other_holder[other_key] = json.loads(
                json.dumps([other_holder[other_key], holder[key]])
            )
        case 4:
            holder[key] = json.loads(json.dumps(other_holder[other_key]))
        case _:
            holder[key] = copy.deepcopy(random.choice(_VALUES))


def _places(plain: Any) -> list[tuple[Any, Any]]:
    """Every (holder, key or index) of a tree."""
    found: list[tuple[Any, Any]] = []
    waiting = [plain]
    while waiting:
        holder = waiting.pop()
        for key in holder if isinstance(holder, dict) else range(len(holder)):
            found.append((holder, key))
            if isinstance(holder[key], dict | list):
                waiting.append(holder[key])
    return found
