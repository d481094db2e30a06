"""Settings of the trade: each is told, each can be set to every value in use, and each changes what it says."""

from fractions import Fraction
from importlib.resources import files
from pathlib import Path
from typing import Any

import msgspec
import pytest

from piecewright.edit.registry import apply
from piecewright.files.beginning import load_beginning, with_beginning
from piecewright.files.settings import LoadedPreferences, Preferences, load_preferences, save_preferences
from piecewright.model.beginning import Beginning, beginning_of
from piecewright.model.quilt import Backing, Batting, Binding
from piecewright.model.settings import Bundles, Settings, Shrinkage
from piecewright.plan.materials import materials
from piecewright.plan.trade_settings import TRADE_SETTINGS, TradeSetting
from tests.core.plan.samples import BOLT, rails

HOLDERS: dict[str, type[Any]] = {
    "settings": Settings,
    "binding": Binding,
    "backing": Backing,
    "batting": Batting,
}
INNER: dict[str, type[Any]] = {"shrinkage": Shrinkage, "bundles": Bundles}


def fields() -> set[str]:
    found = set()
    for holder, kind in HOLDERS.items():
        for field in msgspec.structs.fields(kind):
            if field.name in INNER:
                found |= {
                    f"{holder}.{field.name}.{inner.name}"
                    for inner in msgspec.structs.fields(INNER[field.name])
                }
            elif field.name != "fabric":
                found.add(f"{holder}.{field.name}")
    return found


def test_every_setting_there_is_is_told() -> None:
    keys = [setting.key for setting in TRADE_SETTINGS]
    assert len(keys) == len(set(keys))
    assert set(keys) == fields()


@pytest.mark.parametrize("setting", TRADE_SETTINGS, ids=lambda setting: setting.key)
def test_each_says_what_it_changes_and_takes_every_value_in_use(setting: TradeSetting) -> None:
    assert str(setting.changes).endswith(".")
    assert all(choice.source for choice in setting.choices)
    found = rails(12, BOLT)
    for choice in setting.choices:
        assert setting.value(apply(found, setting.set_to(found, choice.value))) == choice.value
    default: Any = HOLDERS[setting.holder]()
    for name in setting.field.split("."):
        default = getattr(default, name)
    values = [choice.value for choice in setting.choices]
    assert default in values or not setting.closed


def test_the_help_has_every_setting_with_its_sentence() -> None:
    page = (files("piecewright_data") / "help" / "materials.md").read_text("utf-8")
    for setting in TRADE_SETTINGS:
        assert f"| `{setting.key}` | {setting.changes} |" in page


def test_the_usable_widths_that_sources_differ_on_are_offered() -> None:
    (usable,) = [setting for setting in TRADE_SETTINGS if setting.key == "settings.usable"]
    assert [choice.value for choice in usable.choices] == [40, Fraction(83, 2), 42, 44]


# what each changes, by example; a value that does not matter would be a setting that says a lie
CHANGED: dict[str, Any] = {
    "settings.usable": Fraction(20),
    "settings.trim_first": Fraction(4),
    "settings.yardage": "half",
    "settings.margin": Fraction(9),
    "settings.lengths": "whole",
    "settings.shrinkage.cloth": Fraction(10),
    "settings.shrinkage.batting": Fraction(10),
    "settings.shrinkage.take_up": Fraction(3),
    "settings.country": "europe",
    "binding.width": Fraction(3),
    "binding.cut": "bias",
    "binding.join": "straight",
    "binding.extra": Fraction(40),
    "backing.overage": Fraction(20),
    "backing.seam": Fraction(1),
    "backing.lie": "up",
    "backing.pieced": True,
    "batting.overage": Fraction(20),
}


@pytest.mark.parametrize("key", CHANGED)
def test_a_setting_changes_the_materials(key: str) -> None:
    (setting,) = [each for each in TRADE_SETTINGS if each.key == key]
    found = rails(110, BOLT, backing=Backing("f5", Fraction(65, 8)))
    after = materials(apply(found, setting.set_to(found, CHANGED[key])))
    before = materials(found)
    assert (after.sets, after.cloth, after.binding, after.backing, after.batting, after.washed) != (
        before.sets,
        before.cloth,
        before.binding,
        before.backing,
        before.batting,
        before.washed,
    )


# defaults for new designs


def test_new_designs_begin_as_the_user_likes(tmp_path: Path) -> None:
    folder = tmp_path
    liked = Beginning(
        Settings(usable=Fraction(83, 2), shrinkage=Shrinkage(cloth=Fraction(3))), Binding(extra=Fraction(10))
    )
    save_preferences(folder, LoadedPreferences(with_beginning(Preferences(), liked)))
    beginning, notes = load_beginning(load_preferences(folder).preferences)
    assert beginning == liked
    assert not notes
    found = rails(3, BOLT, binding=Binding("f4"))
    begun = beginning.of(found)
    assert begun.settings.usable == Fraction(83, 2)
    assert begun.quilt.binding == Binding("f4", extra=Fraction(10))
    assert beginning_of(begun) == liked


def test_what_means_nothing_gives_way_to_the_usual_with_a_note() -> None:
    for broken in ({"settings": {"seam": "-1"}}, {"binding": 7}, {"unknown": 1}):
        beginning, notes = load_beginning(Preferences(new_design=broken))
        assert beginning == Beginning()
        assert [note.code for note in notes] == ["files.preference-reset"]
    assert load_beginning(Preferences()) == (Beginning(), ())
