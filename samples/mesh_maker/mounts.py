"""Parts of any kind: a mount with a foot and a lug. Millimetres."""

import math

from .part import Part
from .pose import Pose
from .resolution import Resolution
from .solids import bore_cutter, cylinder_along, prism

FOOT_LENGTH = 60.0
FOOT_HEIGHT = 8.0
DEPTH = 16.0
LUG_RADIUS = 10.0
LUG_HEIGHT = 30.0
FILLET = 5.0
PIN_BORE = 8.0
SCREW_BORE = 5.2
SCREW_PLACES = (-23.0, 23.0)


def _arc(center, radius, first_deg, last_deg, resolution: Resolution):
    steps = resolution.arc_steps(radius, math.radians(last_deg - first_deg), fillet=True)
    turns = [math.radians(first_deg + (last_deg - first_deg) * k / steps) for k in range(steps + 1)]
    return [(center[0] + radius * math.cos(t), center[1] + radius * math.sin(t)) for t in turns]


def mount(resolution: Resolution) -> Part:
    """Foot along x on the plane y = 0, lug upward with its bore along z, two screw holes through the foot."""
    half = FOOT_LENGTH / 2
    inner = LUG_RADIUS + FILLET
    outline = [(-half, 0.0), (half, 0.0), (half, FOOT_HEIGHT)]
    outline += _arc((inner, FOOT_HEIGHT + FILLET), FILLET, 270.0, 180.0, resolution)
    outline += _arc((0.0, LUG_HEIGHT), LUG_RADIUS, 0.0, 180.0, resolution)
    outline += _arc((-inner, FOOT_HEIGHT + FILLET), FILLET, 0.0, -90.0, resolution)
    outline.append((-half, FOOT_HEIGHT))
    body = prism(outline, 0.0, DEPTH)
    bore = bore_cutter(PIN_BORE / 2, DEPTH / 2, 0.0, resolution, (0.0, LUG_HEIGHT))
    body = body - bore.translate((0.0, 0.0, DEPTH / 2))
    for x in SCREW_PLACES:
        steps = resolution.bore_steps(SCREW_BORE / 2)
        body = body - cylinder_along("y", SCREW_BORE / 2, -1.0, FOOT_HEIGHT + 1.0, steps, (x, DEPTH / 2))
    truth = {"pin_bore_diameter_mm": PIN_BORE, "screw_bore_diameter_mm": SCREW_BORE}
    return Part("mount", (body,), resolution, Pose(), truth)
