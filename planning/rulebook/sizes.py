"""Rules that are functions: how sizes follow from what was measured."""

from __future__ import annotations

from typing import Final

from planning.evidence import thresholds as t
from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.facts import height
from planning.geometry.bulge import level, low_side_gap
from planning.geometry.burden import skin_burden
from planning.geometry.convexity import depth_class, lift_wanted, outlet_height
from planning.geometry.opening import Opening, opening_for
from planning.geometry.precut import pre_cut_for
from planning.geometry.ring import fit_ring
from planning.instructions import dimension
from planning.rulebook.rule import StatedRule
from planning.supplies.opening_kind import pre_cut_barred

DIMENSIONS: Final = (
    StatedRule("height_of", "Height of the stoma",
         f"Retracted at {t.RETRACTED_AT.value:g} mm and below, flush up to {t.FLUSH_TO.value:g} "
         f"mm, short under {t.COLOSTOMY_TROUBLE.value:g} mm (colostomy) or "
         f"{t.SPOUT_TROUBLE.value:g} mm (all others). In words, any height below the skin is "
         "retracted.",
         height.height_of, (MEMORY, "persson2010/ileostomy", "persson2010/colostomy", DESIGN),
         "causes/test_causes.py::test_too_low_depends_on_the_kind"),
    StatedRule("dome_height", "Height under which convexity is advised for a leak",
         f"Under {t.SPOUT_LOW.value:g} mm; a colostomy under {t.COLOSTOMY_TROUBLE.value:g} mm.",
         height.dome_height, (PRACTICE, "persson2010/colostomy"),
         "needs/test_height.py::test_a_leak_of_a_low_stoma"),
    StatedRule("outlet_height", "Height of the outlet",
         "A lumen at skin level pours out at the skin, however high the rest is.",
         outlet_height, ("barrierfit2022/lumen", DESIGN),
         "geometry/test_fit.py::test_a_lumen_at_skin_level_counts_as_no_height"),
    StatedRule("lift_wanted", "Depth of convexity wanted",
         f"Above the skin what is missing to {t.SPOUT_LOW.value:g} mm, but no more than shallow "
         "convexity; below the skin shallow convexity and the whole of the missing height. One mm "
         "of convexity is taken to lift the stoma by one mm: no source says so.",
         lift_wanted, (PRACTICE, DESIGN),
         "geometry/test_fit.py::test_lift_wanted"),
    StatedRule("depth_class", "Shallow, moderate, deep",
         f"Shallow up to {t.SHALLOW_TO.value:g} mm, deep from {t.DEEP_FROM.value:g} mm, moderate "
         "between.",
         depth_class, ("mcnichol2021/depth", DESIGN),
         "geometry/test_fit.py::test_bands_of_depth"),
    StatedRule("opening_wanted", "The opening",
         "Stoma and gap on every side; none is given where the size, or the widest part of a "
         "prolapse, is not known.",
         dimension.opening_wanted, ("sizing2020/gap", "green2018/most"),
         "instructions/test_dimension.py::test_a_prolapse_of_unknown_width_gets_no_opening"),
    StatedRule("usual_gap", "The gap aimed at",
         f"{t.GAP_TARGET.value:g} mm; {t.GAP_MOST.value:.1f} mm for a swollen stoma; the gap in "
         "use where the system works and the gap is usual.",
         dimension.usual_gap, (DESIGN, "sizing2020/gap", "green2018/most"),
         "instructions/test_dimension.py::test_a_swollen_stoma_gets_the_widest_usual_gap"),
    StatedRule("fitting_gap", "A gap in use that fits",
         f"{t.GAP_LEAST.value:.1f} to {t.GAP_MOST.value:.1f} mm and even on both axes.",
         dimension.fitting_gap, ("sizing2020/gap", "green2018/most"),
         "test_keep_current_system.py::test_the_opening_in_use_stays_the_opening"),
    StatedRule("opening_for", "Outline of the opening",
         "The stoma's edge moved outwards by the gap; the widest part of a stoma wider above than "
         "at its base must pass.",
         opening_for, (DESIGN,),
         "geometry/test_opening.py::test_an_opening_lets_the_widest_part_pass"),
    StatedRule("plateau", "Smallest convex plateau",
         "The smallest circle that holds the opening: what is cut into the slope loses its depth.",
         vars(Opening)["across_mm"].fget, (PRACTICE,),
         "instructions/test_dimension.py::test_the_plateau_holds_the_opening"),
    StatedRule("pre_cut_for", "Nearest pre-cut size",
         f"The smallest usual step that leaves {t.GAP_LEAST.value:.1f} to {t.GAP_MOST.value:.1f} "
         "mm a side; where none does, only cut-to-fit serves.",
         pre_cut_for, (PRACTICE, "sizing2020/gap"),
         "geometry/test_opening.py::test_ready_cut_sizes"),
    StatedRule("pre_cut_barred", "When only cut-to-fit serves",
         f"A stoma that is not round (longest over crosswise above {t.ROUND_RATIO.value:g}), wider "
         f"above than at its base, younger than {t.PRE_CUT_FROM.value:g} days, of unknown size, or "
         f"without two equal sizes {t.PRE_CUT_STABLE.value:g} days apart.",
         pre_cut_barred, ("oklahoma1997/cut_first", DESIGN),
         "supplies/test_search.py::test_no_ready_cut_opening"),
    StatedRule("fit_ring", "Ring stretched to the stoma",
         "Its hole has the stoma's circumference, so that it touches all round; its volume stays "
         "the "
         f"same. Over {t.RING_STRETCH.value:g} times its hole, or round a wider tip, it is cut and "
         "closed with overlapping ends.",
         fit_ring, ("morgan2015/ring", PRACTICE),
         "geometry/test_fit.py::test_when_a_ring_is_cut"),
    StatedRule("low_side_gap", "Step beside a bulge",
         "The gap under a barrier that lies on the top of the bulge and on its own far rim.",
         low_side_gap, (DESIGN,),
         "geometry/test_fit.py::test_step_beside_a_bulge"),
    StatedRule("levelling", "Half rings and paste for the step",
         f"Whole half rings first, at most {t.HALF_RINGS.value:g}, paste for the rest.",
         level, (DESIGN, PRACTICE),
         "geometry/test_fit.py::test_half_rings_then_paste"),
    StatedRule("skin_burden", "Area of damaged skin",
         "From hours and reach, overlaps counted once; not known where an extent is not recorded.",
         skin_burden, (DESIGN,),
         "geometry/test_fit.py::test_overlapping_damage_counts_once"),
    StatedRule("stoma_size", "Where nothing is to be cut",
         "Only the size of the stoma and the damage are shown.",
         dimension.stoma_size, (DESIGN,),
         "test_keep_current_system.py::test_no_other_opening_is_proposed"),
)  # fmt: skip
