"""The list of sample files."""

from . import mounts, pistons, sample_rods
from .catalogue import NOT_A_ROD, PISTON, ROD, Entry
from .pose import Pose
from .resolution import COARSE, SAMPLE, SAMPLE_LARGE

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
        "stout_rod",
        lambda: sample_rods.stout_rod(SAMPLE),
        ROD,
        "the plain rod's next revision, with thicker eyes and wider blends; lies flat, rod along y",
        READ,
    ),
    Entry(
        "bushed_rod",
        lambda: sample_rods.bushed_rod(SAMPLE),
        ROD,
        "rod with bores for a pressed bush and a pressed needle cup; lies flat, rod along x",
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
    Entry(
        "flat_crown_piston",
        lambda: pistons.sample("flat crown piston", pistons.FLAT_CROWN, SAMPLE, Pose()),
        PISTON,
        "piston with a flat crown of 5 mm, two ring grooves and slipper cuts; stands upright, pin along x",
        READ,
    ),
    Entry(
        "thin_crown_piston",
        lambda: pistons.sample("thin crown piston", pistons.THIN_CROWN, SAMPLE, Pose(pistons.LYING)),
        PISTON,
        "the same piston with its crown down to 1.6 mm and no fillet under it; lies, axis along x",
        "read, and let the crown govern",
    ),
    Entry(
        "plate_crown_piston",
        lambda: pistons.sample("plate crown piston", pistons.PLATE_CROWN, SAMPLE, Pose()),
        PISTON,
        "piston for a metal plate of 3 mm that the job lays on its crown of 4 mm; two ribs under the crown",
        READ,
    ),
    Entry(
        "places/mount",
        lambda: mounts.mount(COARSE),
        NOT_A_ROD,
        "mount with a foot, a lug with a bore along z, and two screw holes; lies flat, as it is printed",
        "take as a part of any kind where the job says so",
    ),
)
