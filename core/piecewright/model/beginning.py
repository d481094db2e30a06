"""What a new design begins with: the quilter's own settings, binding, backing and batting."""

from piecewright.model.design import Design
from piecewright.model.quilt import Backing, Batting, Binding
from piecewright.model.settings import Settings
from piecewright.model.value import Value


class Beginning(Value, frozen=True, omit_defaults=True):
    """Kept for all new designs; it names no fabrics, since every design has its own."""

    settings: Settings = Settings()
    binding: Binding = Binding()
    backing: Backing = Backing()
    batting: Batting = Batting()

    def of(self, design: Design) -> Design:
        """The design with these in place of its own, in every arrangement; fabrics chosen there stay."""
        arrangements = tuple(
            quilt.changed(
                binding=self.binding.changed(fabric=quilt.binding.fabric),
                backing=self.backing.changed(fabric=quilt.backing.fabric),
                batting=self.batting,
            )
            for quilt in design.arrangements
        )
        return design.changed(settings=self.settings, arrangements=arrangements)


def beginning_of(design: Design) -> Beginning:
    """What a design would hand on to new ones: its settings and what goes round the arrangement in view."""
    quilt = design.quilt
    return Beginning(
        design.settings,
        quilt.binding.changed(fabric=None),
        quilt.backing.changed(fabric=None),
        quilt.batting,
    )
