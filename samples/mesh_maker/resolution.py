"""How finely curves and faces are divided."""

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Resolution:
    """`edge_mm` bounds every facet edge; the two counts are floors for small circles."""

    edge_mm: float
    bore_segments: int
    fillet_segments: int

    def bore_steps(self, radius_mm: float) -> int:
        """Facets round a full bore: a multiple of eight, so both axes of symmetry meet vertices."""
        wanted = max(self.bore_segments, math.ceil(2 * math.pi * radius_mm / self.edge_mm))
        return 8 * math.ceil(wanted / 8)

    def arc_steps(self, radius_mm: float, angle_rad: float, fillet: bool = False) -> int:
        """Straight pieces along an arc."""
        floor = self.fillet_segments if fillet else self.bore_segments
        by_turn = floor * abs(angle_rad) / (2 * math.pi)
        by_length = radius_mm * abs(angle_rad) / self.edge_mm
        return max(2, math.ceil(max(by_turn, by_length) - 1e-9))


SAMPLE = Resolution(edge_mm=0.85, bore_segments=96, fillet_segments=40)
SAMPLE_LARGE = Resolution(edge_mm=1.0, bore_segments=96, fillet_segments=40)
COARSE = Resolution(edge_mm=4.0, bore_segments=64, fillet_segments=24)
BENCH_200K = Resolution(edge_mm=0.365, bore_segments=96, fillet_segments=40)
BENCH_1M = Resolution(edge_mm=0.157, bore_segments=96, fillet_segments=40)
