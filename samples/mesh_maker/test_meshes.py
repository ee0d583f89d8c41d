"""The list of test files."""

from . import bad_meshes, not_rods, pistons, test_rods
from .catalogue import NOT_A_ROD, PISTON, REFUSED, ROD, ROD_AFTER_REPAIR, Entry
from .pose import Pose, about_z

BINARY_HEADER_LIKE_TEXT = "solid bench rod, yet what follows is binary"
NOT_PISTON = "accept the mesh and refuse it as a rod and as a piston, saying what was found"
NOT_ROD = "accept the mesh and refuse it as a rod, saying what bores were found"

UNUSUAL_RODS = (
    Entry(
        "solid_header",
        lambda: test_rods.plain(Pose(about_z(15.0), (5.0, -4.0, 7.0))),
        ROD,
        "binary rod whose 80-byte header starts with `solid`",
        "tell binary from text by length, not by the first word",
        header=BINARY_HEADER_LIKE_TEXT,
    ),
    Entry(
        "ascii_odd_spacing",
        lambda: test_rods.plain(Pose(), test_rods.VERY_COARSE),
        ROD,
        "ASCII rod: tabs, blank lines, mixed case, CRLF, signs and exponents, no name at the end",
        "read it as any other",
        ascii=True,
    ),
    Entry(
        "study_eyes",
        test_rods.study_eyes,
        ROD,
        "thin rod whose eyes have the proportions of the contact study, finely divided",
        "read it as any other; its eyes' stress is that of the study",
    ),
    Entry(
        "overlapping_shells",
        test_rods.overlapping_shells,
        ROD,
        "small eye, shank and big eye as three closed bodies that overlap, not united",
        "count the overlap once in volume and sections, and say that shells overlap",
    ),
    Entry(
        "loose_bodies",
        test_rods.loose_bodies,
        ROD,
        "rod with a pin and a washer beside it",
        "take the rod and name the bodies left out",
    ),
    Entry(
        "half_bore_no_cap",
        test_rods.half_bore_no_cap,
        ROD,
        "split rod without its cap: the big bore is an arc of 180 degrees",
        "find the half bore, and say that it is open",
    ),
    Entry(
        "half_bore_with_cap",
        test_rods.half_bore_with_cap,
        ROD,
        "split rod and cap as two closed shells; the cap's joint edges are broken 0.2 mm, so the "
        "faces touch without a shared edge",
        "join the two half bores into one",
    ),
    Entry(
        "cap_edges_shared",
        test_rods.cap_edges_shared,
        ROD,
        "the same, but the joint faces coincide edge for edge: four facets meet at each joint edge",
        "part the two shells there and join the two half bores into one",
    ),
    Entry(
        "far_from_origin",
        test_rods.far_from_origin,
        ROD,
        "rod moved by (2500, -1800, 900) mm, where a float32 step is 0.0002 mm",
        "lose no accuracy in volume, inertia or bore fit beyond that step",
    ),
    Entry(
        "inner_void",
        test_rods.inner_void,
        ROD,
        "rod with a closed ellipsoidal cavity in the shank, an inner shell",
        "take the cavity off volume and sections, and report it",
    ),
    Entry(
        "unequal_depths",
        test_rods.unequal_depths,
        ROD,
        "rod with a big eye 20 mm deep, a small eye 12 mm deep and a shank 8 mm deep",
        "find both bores by their own depth",
    ),
    Entry(
        "inch_rod",
        test_rods.inch_rod,
        ROD,
        "rod with coordinates in inches",
        "say that the size fits centimetres and inches; read right when told the unit",
    ),
    Entry(
        "metre_rod",
        test_rods.metre_rod,
        ROD,
        "rod with coordinates in metres",
        "say that the size fits metres; read right when told the unit",
    ),
    Entry(
        "counterbored",
        test_rods.counterbored,
        ROD,
        "rod with a counterbore in one face of each eye",
        "keep bore and counterbore of an eye together as coaxial",
    ),
    Entry(
        "slotted_small_end",
        test_rods.slotted_small_end,
        ROD,
        "rod with a 3 mm oil slot through the free side of the small eye (arc 333 degrees)",
        "find the interrupted bore as one",
    ),
    Entry(
        "oil_hole_rod",
        test_rods.oil_hole_rod,
        ROD,
        "rod with a 2.5 mm oil hole through the wall of each eye",
        "find the pierced bores and leave the oil holes out",
    ),
)

NOT_RODS = (
    Entry("pin", not_rods.pin, NOT_A_ROD, "solid pin", NOT_ROD),
    Entry("tube", not_rods.tube, NOT_A_ROD, "plain tube", NOT_ROD),
    Entry(
        "crank_arm",
        not_rods.crank_arm,
        NOT_A_ROD,
        "crank web: main and crank-pin bores close together, counterweight beyond the main bore",
        NOT_ROD,
    ),
    Entry("block", not_rods.block, NOT_A_ROD, "rectangular block", NOT_ROD),
    Entry(
        "block_two_holes",
        not_rods.block_two_holes,
        NOT_A_ROD,
        "rectangular block with two equal through holes",
        NOT_ROD,
    ),
    Entry(
        "flange_plate",
        not_rods.flange_plate,
        NOT_A_ROD,
        "round plate with a centre hole and six bolt holes",
        NOT_ROD,
    ),
    Entry("one_bore", not_rods.one_bore, NOT_A_ROD, "lever with one bore", NOT_ROD),
)

BAD = (
    Entry(
        "open",
        bad_meshes.open_rod,
        REFUSED,
        "rod with the facets of a 20 mm patch missing from the shank",
        "refuse, naming the place and size of the hole",
        closed=False,
    ),
    Entry(
        "small_hole",
        bad_meshes.small_hole,
        ROD_AFTER_REPAIR,
        "rod with two adjacent facets missing",
        "cap the hole and report it",
        closed=False,
    ),
    Entry(
        "non_manifold",
        bad_meshes.non_manifold,
        REFUSED,
        "two blocks that share one edge, four facets meeting there",
        "refuse, naming the edge",
    ),
    Entry(
        "fin",
        bad_meshes.fin,
        REFUSED,
        "rod with a single facet standing on one edge, three facets meeting there",
        "refuse, naming the edge",
        closed=False,
    ),
    Entry(
        "inside_out",
        bad_meshes.all_inside_out,
        REFUSED,
        "rod with every facet turned the wrong way round",
        "refuse, naming the negative volume",
    ),
    Entry(
        "one_flipped_facet",
        bad_meshes.one_flipped_facet,
        REFUSED,
        "rod with one facet turned the wrong way round",
        "refuse, naming the place",
        closed=False,
    ),
    Entry(
        "two_rods",
        test_rods.two_rods,
        NOT_A_ROD,
        "two equal rods side by side in one file",
        "refuse to choose, and say that two parts were found",
    ),
)

PISTONS = (
    Entry(
        "piston",
        pistons.coarse,
        PISTON,
        "the flat-crown sample in few facets, as built",
        "read as a piston",
    ),
    Entry(
        "piston_tilted",
        lambda: pistons.coarse(Pose(pistons.TILTED, (12.0, -7.0, 30.0))),
        PISTON,
        "the same piston with no axis along one of the file",
        "read as a piston",
    ),
    Entry(
        "piston_far",
        lambda: pistons.coarse(Pose(pistons.LYING, (1500.0, -900.0, 2500.0))),
        PISTON,
        "the same piston metres from the origin",
        "read as a piston; coordinates keep a few thousandths of a millimetre",
    ),
    Entry(
        "piston_in_pieces",
        pistons.in_pieces,
        PISTON,
        "the same piston as two closed bodies that overlap, with a loose pin beside it",
        "count the overlap once, and name the pin left out",
    ),
    Entry(
        "holder",
        pistons.holder,
        NOT_A_ROD,
        "a piston's outside with its hollow the other way up: grooves at the open end",
        NOT_PISTON,
    ),
    Entry("cup", pistons.cup, NOT_A_ROD, "a cup: closed at one end, no bore across", NOT_PISTON),
    Entry("bush", pistons.bush, NOT_A_ROD, "a tube with a grease hole across", NOT_PISTON),
    Entry("plug", pistons.plug, NOT_A_ROD, "a solid cylinder with a bore across", NOT_PISTON),
)

TEST_MESHES = UNUSUAL_RODS + NOT_RODS + PISTONS + BAD
