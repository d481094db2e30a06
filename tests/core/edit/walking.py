"""A walk over the edits: one after another on a design, everything that must hold checked at every step."""

from collections import Counter
from dataclasses import dataclass, field
from random import Random

from piecewright.edit.registry import EditCall, apply
from piecewright.errors import EditError
from piecewright.model.codec import from_json, from_plain, read_json, to_json
from piecewright.model.design import Design
from tests.core.edit_strategies import random_call
from tests.core.soundness import assert_sound


@dataclass
class Walk:
    """A design as it goes, the calls that led there, and how often each edit was accepted and refused."""

    first: Design
    journal: list[EditCall] = field(default_factory=list)
    accepted: Counter[str] = field(default_factory=Counter)
    refused: Counter[str] = field(default_factory=Counter)
    sentences: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.design = self.first

    def step(self, random: Random) -> None:
        """One random edit. A refused one says so in words and changes nothing."""
        call = random_call(random, self.design)
        try:
            after = apply(self.design, call)
        except EditError as refusal:
            self.refused[call.name] += 1
            self.sentences.add(refusal.sentence())
            return
        assert_sound(after)
        self.accepted[call.name] += 1
        self.journal.append(call)
        self.design = after


def replayed(first: Design, journal: list[EditCall]) -> Design:
    """The design after the calls of a journal, each read back from its JSON."""
    design = first
    for call in journal:
        read = from_plain(read_json(to_json(call)), EditCall)
        assert read == call
        design = apply(design, read)
    return design


def assert_kept_by_json(design: Design) -> None:
    """The design written and read again is equal, and gives equal bytes."""
    data = to_json(design)
    read = from_json(data)
    assert read == design
    assert to_json(read) == data
