"""The list of sample files."""

from . import sample_rods
from .catalogue import ROD, Entry
from .resolution import SAMPLE, SAMPLE_LARGE

READ = "read without a warning"

SAMPLES = (
    Entry(
        "plain_rod",
        lambda: sample_rods.plain_rod(SAMPLE),
        ROD,
        "rod with a plain rectangular shank flush with both eyes; lies flat, rod along y",
        READ,
    ),
    Entry(
        "i_shank_rod",
        lambda: sample_rods.i_shank_rod(SAMPLE),
        ROD,
        "rod with a tapered I-section shank; lies flat at 30 degrees in the xy plane",
        READ,
    ),
    Entry(
        "thin_web_rod",
        lambda: sample_rods.thin_web_rod(SAMPLE),
        ROD,
        "the I-shank rod with its web down to 0.7 mm from 25 to 37 mm from the small-end centre",
        "read, and flag the thin web",
    ),
    Entry(
        "bearing_rod",
        lambda: sample_rods.bearing_rod(SAMPLE_LARGE),
        ROD,
        "rod with seats for rolling bearings and a retaining shoulder in each eye; stands upright, "
        "pin axis along y",
        "take each seat and its smaller through-bore as one coaxial eye; the seat is the bore",
    ),
    Entry(
        "split_rod",
        lambda: sample_rods.split_rod(SAMPLE),
        ROD,
        "rod with a big end parted across its centre, the cap a second closed shell that touches "
        "at the mating face; lies on its side, pin axis along x",
        "join the two half bores into one; keep the bolt holes out of the search",
    ),
)
