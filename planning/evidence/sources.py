"""Every source a rule may cite.

The mark says how the statement was checked when the rule was written, not how strong the
study is. A rule without a published source cites one of the last entries, which say so.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final


class Mark(StrEnum):
    """How a cited statement was checked."""

    VERIFIED = "verified"
    SECOND_HAND = "verified second-hand"
    ABSTRACT = "abstract read"
    EXCERPT = "excerpt read"
    COMMON_PRACTICE = "common practice, no source"
    FROM_MEMORY = "from memory, unverified"
    DESIGN_VALUE = "design value of this planner, no source"


@dataclass(frozen=True, slots=True)
class Source:
    """``citation`` short enough for a line of the screen; ``doi`` where known."""

    id: str
    citation: str
    year: int | None
    mark: Mark
    doi: str | None = None

    @property
    def words(self) -> str:
        """As shown beside a reason: ``Persson 2010, Colorectal Dis 12:971 (verified)``."""
        return self.citation if self.citation == self.mark else f"{self.citation} ({self.mark})"


def _read(id_: str, year: int | None, citation: str, doi: str | None = None) -> Source:
    return Source(id_, citation, year, Mark.VERIFIED, doi)


def _quoted(id_: str, year: int | None, citation: str, doi: str | None = None) -> Source:
    return Source(id_, citation, year, Mark.SECOND_HAND, doi)


def _excerpt(id_: str, year: int | None, citation: str) -> Source:
    return Source(id_, citation, year, Mark.EXCERPT)


def _abstract(id_: str, year: int | None, citation: str) -> Source:
    return Source(id_, citation, year, Mark.ABSTRACT)


_ALL: Final = (
    # --- skin --------------------------------------------------------------------------------
    _read(
        "lyon2000spectrum",
        2000,
        "Lyon 2000, Br J Dermatol 143:1248",
        "10.1046/j.1365-2133.2000.03896.x",
    ),
    _read("lyon2000steroid", 2000, "Lyon 2000, J Am Acad Dermatol 43:679"),
    _read("agarwal2010", 2010, "Agarwal and Ehrlich 2010, Dermatitis 21:138"),
    _read(
        "patchtest2012",
        2012,
        "Patch testing in peristomal dermatitis 2012, Br J Dermatol",
        "10.1111/j.1365-2133.2012.10925.x",
    ),
    _read(
        "contactderm",
        2017,
        "Stoma care products and contact dermatitis, Contact Dermatitis",
        "10.1111/cod.12678",
    ),
    _read("latexfood2000", 2000, "Latex and food allergy 2000, J Am Diet Assoc"),
    _read("landis2012", 2012, "Landis 2012, J Am Acad Dermatol 67:e91"),
    _read(
        "leblanc2019",
        2019,
        "LeBlanc 2019, J Wound Ostomy Continence Nurs 46:125",
        "10.1097/WON.0000000000000513",
    ),
    _read(
        "brogna2021",
        2021,
        "Brogna 2021, Adv Skin Wound Care 34:461",
        "10.1097/01.ASW.0000758620.93518.39",
    ),
    _read("wu2013", 2013, "Wu and Shen 2013, Gastroenterol Rep 1:1", "10.1093/gastro/got013"),
    _read("hughes2000", 2000, "Hughes 2000, JAMA 284:1546", "10.1001/jama.284.12.1546"),
    _read("sheldon2000", 2000, "Twenty-case pyoderma series 2000, Arch Surg 135:564"),
    _read(
        "cairns1994", 1994, "Cairns 1994, Arch Surg 129:769", "10.1001/archsurg.1994.01420310101019"
    ),
    _read("taylor2018", 2018, "Taylor 2018, pyoderma case study, wound-ostomy conference CS19"),
    _read(
        "hightech",
        None,
        "Emergency Management of the Hi-Tech Patient, stoma chapter (edition year not noted)",
    ),
    _read("pressure2007", 2007, "Pressure ulcer and an ostomy 2007, Ostomy Wound Manage column"),
    _read("swedish", None, "Swedish stoma nurses, ulcerated skin"),
    _read("folliculitis", 2000, "Ostomy association newsletters on folliculitis 1997-2000 (lay)"),
    # --- stoma -------------------------------------------------------------------------------
    _read(
        "persson2010",
        2010,
        "Persson 2010, Colorectal Dis 12:971",
        "10.1111/j.1463-1318.2009.01941.x",
    ),
    _read(
        "cottam2007", 2007, "Cottam 2007, Colorectal Dis 9:834", "10.1111/j.1463-1318.2007.01213.x"
    ),
    _read(
        "davis2022",
        2022,
        "Davis 2022, colon and rectal surgeons' guideline, Dis Colon Rectum 65:1173",
        "10.1097/DCR.0000000000002498",
    ),
    _read("ayik2020", 2020, "Ostomy complications and nursing care, n = 572, Wound Manag Prev"),
    _read("liu2024", 2024, "Liu 2024, World J Clin Cases 12:6620", "10.12998/wjcc.v12.i33.6620"),
    _read("problemstoma", None, "Textbook excerpt, The problem stoma"),
    _read("atlas", None, "Emergency medicine atlas, stoma prolapse"),
    _read("barr2004", 2004, "Barr 2004, Ostomy Wound Manage, stomal complications part 2"),
    _read("rnao", 2007, "Registered nurses' association of Ontario, definitions"),
    _read("carville2022", 2022, "Carville 2022, WCET J 42(3):12", "10.33235/wcet.42.3.12-22"),
    _read("prolapsereview", 2010, "Prolapse and retraction review, about 2010 (PMID 20967531)"),
    _read(
        "varicesreview",
        2013,
        "Stomal varices review 2013, Tech Coloproctol 17:163",
        "10.1007/s10151-012-0922-6",
    ),
    _read(
        "strauss2014",
        2014,
        "Strauss 2014, Korean J Gastroenterol 64:290",
        "10.4166/kjg.2014.64.5.290",
    ),
    _read("ectopicvarices", None, "Ectopic varices review, PMC2716887"),
    _read("white", None, "White, hepatic disease and stomal varices"),
    _read(
        "parastomalvarices2020",
        2020,
        "Parastomal varices without cirrhosis 2020, Case Rep Gastrointest Med 2020:2653848",
    ),
    _read("malignancy2010", 2010, "Carcinoma at an ileostomy 2010, Case Rep Med 2010:921328"),
    _read("vickers2025", 2025, "Vickers 2025, WCET J 45(1):20", "10.33235/wcet.45.1.20-26"),
    _read(
        "stomacancer2015",
        2015,
        "Cancer at a stoma 2015, World J Gastrointest Surg 7:94",
        "10.4240/wjgs.v7.i6.94",
    ),
    # --- output ------------------------------------------------------------------------------
    _read("arenas2015", 2015, "Arenas Villafranca 2015, Nutr J", "10.1186/s12937-015-0034-z"),
    _read(
        "baker2011", 2011, "Baker 2011, Colorectal Dis 13:191", "10.1111/j.1463-1318.2009.02107.x"
    ),
    _read(
        "nightingale2006",
        2006,
        "Nightingale and Woodward 2006, short-bowel guideline, Gut 55",
        "10.1136/gut.2006.091108",
    ),
    _read("vogel2022", 2022, "Vogel 2022, Tech Coloproctol 26:333", "10.1007/s10151-022-02580-6"),
    _read("gateshead", None, "Gateshead Health NHS ileostomy leaflets"),
    _read("obstruction", None, "Ostomy Canada Society, bowel obstructions"),
    _read("urostomy2014", 2014, "American Cancer Society 2014, urostomy problems"),
    _read("nhsileostomy", None, "NHS ileostomy complications (syndicated)"),
    _excerpt("foodblockage2021", 2021, "Food blockage, teaching guide, Zane Cohen Centre 2021"),
    _excerpt("blockagecard2012", 2012, "How to treat ileostomy blockage, association card 2012"),
    _excerpt("goinghome", None, "Discharge planning for a new ostomy, WOCN sheet"),
    _excerpt("evisceration2010", 2010, "Parastomal intestinal evisceration, West J Emerg Med"),
    _excerpt("evisceration2020", 2020, "Late parastomal evisceration, Int J Colorectal Dis"),
    _excerpt("fasciitis2016", 2016, "Peristomal necrotizing fasciitis, 14 patients, Wounds"),
    _excerpt("separation2021", 2021, "Mucocutaneous separation, Wound Manag Prev"),
    _excerpt("urostomytips", None, "Top tips, Urostomy Association UK"),
    _excerpt("urostomynz", None, "Urostomy complications, New Zealand ostomates' federation"),
    _excerpt("neutropenia2018", 2018, "Outpatient fever and neutropenia in adults, US guideline"),
    _read("seekhelp2009", 2009, "Ostomy association Los Angeles 2009, when to seek help (lay)"),
    _excerpt(
        "leicester2005", None, "Adults with a high output stoma, Leicester hospitals B12/2005"
    ),
    _excerpt("ileostomymedicines", None, "Medication considerations, Zane Cohen Centre"),
    _abstract(
        "aceileostomy2018", 2018, "ACE inhibitor or ARB, new ileostomy, Int J Colorectal Dis"
    ),
    _abstract("acediuretics2024", 2024, "ACE inhibitor, ARB, diuretics, dehydration, BJS Open"),
    _excerpt("nicorandil2012", 2012, "Nicorandil, 21 cases, Br J Dermatol, via a 2013 summary"),
    _abstract("stomalvarices", None, "Stomal varices treated by obliteration"),
    _abstract("childoutput2024", 2024, "High output in children, J Pediatr Gastroenterol Nutr"),
    _abstract("childsodium2014", 2014, "Sodium and growth of surgical infants, Pediatr Surg Int"),
    _abstract("greenvomit2014", 2014, "Term infants with green vomit, Arch Dis Child"),
    _excerpt("infantskin", None, "Neonatal and infant skin care, Royal Children's Hospital"),
    _excerpt("neonatalostomy", None, "Neonatal ostomy care, atlas, chapter 42"),
    # --- fitting -----------------------------------------------------------------------------
    _read(
        "hoeflok2017",
        2017,
        "Hoeflok 2017, J Wound Ostomy Continence Nurs 44(1):55",
        "10.1097/WON.0000000000000291",
    ),
    Source(
        "mcnichol2021",
        "McNichol 2021, J Wound Ostomy Continence Nurs 48(6):524",
        2021,
        Mark.FROM_MEMORY,
        "10.1097/WON.0000000000000831",
    ),
    _read(
        "colwell2022",
        2022,
        "Colwell 2022, J Wound Ostomy Continence Nurs 49(3):240",
        "10.1097/WON.0000000000000874",
    ),
    _read(
        "stoiadavis2022",
        2022,
        "Stoia-Davis 2022, J Wound Ostomy Continence Nurs 49(3):247",
        "10.1097/WON.0000000000000877",
    ),
    _read(
        "beitz2025",
        2025,
        "Beitz 2025, J Wound Ostomy Continence Nurs 52(1):36",
        "10.1097/WON.0000000000001139",
    ),
    _read("ascnuk2025", 2025, "Stoma care nurses UK, statement on convexity, 14 Nov 2025"),
    _quoted("complicationsreview", 2004, "Review of stoma complications, citing Barr and Efron"),
    _read(
        "barrierfit2022", 2022, "Colwell 2022, WCET J Suppl 42(1):s5", "10.33235/wcet.42.1.sup.s5-7"
    ),
    _quoted("martins2022", 2022, "Martins 2022, as cited in Br J Nurs product evaluation"),
    _read("rolstad2006", 2006, "Rolstad 2006, techniques in the use of convexity"),
    _read("enlarging2019", 2019, "Enlarging the opening of a pouch system 2019, Wound Manag Prev"),
    _read("green2018", 2018, "Green 2018, wound-ostomy conference poster CS12"),
    _read("sizing2020", 2020, "US hospital library 2020, sizing the opening"),
    _read("oklahoma1997", 1997, "Oklahoma ostomy association newsletter 1997 (lay)"),
    _read("metcalf2001", 2001, "Metcalf 2001, Nursing Times 97(12):43"),
    _read("weekly", None, "US nurse-teaching text on weekly measuring (weak)"),
    _read("mskcc", None, "Memorial Sloan Kettering ostomy guide"),
    _read("morgan2015", 2015, "Morgan 2015, Wound Care Advisor 4(3)"),
    _read("accessories", None, "Ostomy Canada Society, accessories"),
    _read("encyclopedia", None, "US public medical encyclopedia, ileostomy"),
    _read("peristomal", None, "Wound Care Advisor, managing peristomal problems"),
    _read("nca", None, "Northern Care Alliance NHS discharge leaflet"),
    _read("crusting", None, "Columbia River ostomy support group, crusting (lay)"),
    _read("germansky2017", 2017, "Germansky 2017, nurses' survey of crusting, n = 894"),
    _read("caretrials2014", 2014, "Systematic review of peristomal care trials to 2014"),
    _read("removers2013", 2013, "J Community Nursing 2013, adhesive removers (product-linked)"),
    _read("nswocc", 2007, "Nurses specialized in wound, ostomy and continence Canada, hernia"),
    # --- wear, supplies, follow-up -----------------------------------------------------------
    Source(
        "richbourg2008",
        "Richbourg 2008, J Wound Ostomy Continence Nurs 35(5):504",
        2008,
        Mark.FROM_MEMORY,
    ),
    _read("leak2016", 2020, "Hedegaard 2020, WCET J 40(4):23"),
    _quoted("lcd", 2024, "US Medicare coverage rule L33828, ostomy supplies"),
    _read("eastkent", None, "East Kent Hospitals NHS stoma page"),
    _read("chelsea", None, "Chelsea and Westminster NHS stoma service"),
    _read("cambridge", None, "Cambridge University Hospitals NHS urostomy discharge leaflet"),
    _read("salford", None, "Salford NHS discharge leaflet"),
    _read("icd10cm", 2026, "ICD-10-CM tabular list, US release of April 2026"),
    # --- the course over time ------------------------------------------------------------------
    _read(
        "smietanski2014",
        2014,
        "European Hernia Society classes, Smietanski 2014, Hernia 18:1",
        "10.1007/s10029-013-1162-z",
    ),
    _read(
        "antoniou2018",
        2018,
        "European Hernia Society guideline, Antoniou 2018, Hernia 22:183",
        "10.1007/s10029-017-1697-5",
    ),
    # --- special situations ------------------------------------------------------------------
    _read("pregnancy2025", 2025, "Pregnancy with a stoma, 67 pregnancies 2025, Inflamm Bowel Dis"),
    _read("pregnancy2022", 2022, "Pregnancy after stoma surgery, UK audit 2022, Colorectal Dis"),
    _excerpt("pregnancyleaflet", None, "Canadian gut society, pregnancy with an ostomy"),
    _excerpt("dementiauk", None, "Dementia UK, stoma and dementia"),
    _quoted("nicorandil2012", 2012, "Nicorandil, 21 cases 2012, Br J Dermatol, via a 2013 summary"),
    _read("psoriasis2017", 2017, "Peristomal psoriasis, 78 patients 2017, Clin Exp Dermatol"),
    Source("kaplan1958", "Kaplan and Meier 1958, J Am Stat Assoc 53:457", 1958, Mark.FROM_MEMORY),
    Source("mantel1966", "Mantel 1966, Cancer Chemother Rep 50:163", 1966, Mark.FROM_MEMORY),
    Source("garwood1936", "Garwood 1936, Biometrika 28:437", 1936, Mark.FROM_MEMORY),
    Source(
        "przyborowski1940",
        "Przyborowski and Wilenski 1940, Biometrika 31:313",
        1940,
        Mark.FROM_MEMORY,
    ),
    Source("sen1968", "Sen 1968, J Am Stat Assoc 63:1379", 1968, Mark.FROM_MEMORY),
    Source("bland1986", "Bland and Altman 1986, Lancet 1:307", 1986, Mark.FROM_MEMORY),
    # --- no published source -----------------------------------------------------------------
    Source("common_practice", Mark.COMMON_PRACTICE, None, Mark.COMMON_PRACTICE),
    Source("from_memory", Mark.FROM_MEMORY, None, Mark.FROM_MEMORY),
    Source("design_value", Mark.DESIGN_VALUE, None, Mark.DESIGN_VALUE),
)

#: By id.
SOURCES: Final[dict[str, Source]] = {source.id: source for source in _ALL}

# Short names for the pseudo sources, which most rules need.
PRACTICE: Final = "common_practice"
MEMORY: Final = "from_memory"
DESIGN: Final = "design_value"


def cite(ids: tuple[str, ...]) -> str:
    """``ids`` in words for the screen, one after the other."""
    return "; ".join(SOURCES[i].words for i in ids)
