"""Every source that a statement on record comes from.

What was read for a statement is in ``planning.evidence.claims``, statement by statement: one source
may be read in full for one and be named from memory for another. The last entries are no sources:
a rule that no source supports cites one of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from planning.evidence.mark import Mark


@dataclass(frozen=True, slots=True)
class Source:
    """``citation`` short enough for a line of the screen; ``doi`` where known. ``mark`` only for
    what is no source."""

    id: str
    citation: str
    year: int | None
    mark: Mark | None = None
    doi: str | None = None

    @property
    def published(self) -> bool:
        """Somebody else wrote it; a rule cites a statement in it, never the whole."""
        return self.mark is None

    @property
    def words(self) -> str:
        """As shown where a plan signed earlier cites the whole source."""
        return (
            f"{self.citation} (what was read is not on record)"
            if self.published
            else (self.citation)
        )


def _of(id_: str, year: int | None, citation: str, doi: str | None = None) -> Source:
    return Source(id_, citation, year, None, doi)


_ALL: Final = (
    # --- skin --------------------------------------------------------------------------------
    _of(
        "lyon2000spectrum",
        2000,
        "Lyon 2000, Br J Dermatol 143:1248",
        "10.1046/j.1365-2133.2000.03896.x",
    ),
    _of("lyon2000steroid", 2000, "Lyon 2000, J Am Acad Dermatol 43:679"),
    _of("agarwal2010", 2010, "Agarwal and Ehrlich 2010, Dermatitis 21:138"),
    _of(
        "patchtest2012",
        2012,
        "Patch testing in peristomal dermatitis 2012, Br J Dermatol",
        "10.1111/j.1365-2133.2012.10925.x",
    ),
    _of(
        "contactderm",
        2017,
        "Stoma care products and contact dermatitis, Contact Dermatitis",
        "10.1111/cod.12678",
    ),
    _of("latexfood2000", 2000, "Latex and food allergy 2000, J Am Diet Assoc"),
    _of("landis2012", 2012, "Landis 2012, J Am Acad Dermatol 67:e91"),
    _of(
        "leblanc2019",
        2019,
        "LeBlanc 2019, J Wound Ostomy Continence Nurs 46:125",
        "10.1097/WON.0000000000000513",
    ),
    _of(
        "brogna2021",
        2021,
        "Brogna 2021, Adv Skin Wound Care 34:461",
        "10.1097/01.ASW.0000758620.93518.39",
    ),
    _of("wu2013", 2013, "Wu and Shen 2013, Gastroenterol Rep 1:1", "10.1093/gastro/got013"),
    _of("hughes2000", 2000, "Hughes 2000, JAMA 284:1546", "10.1001/jama.284.12.1546"),
    _of("sheldon2000", 2000, "Twenty-case pyoderma series 2000, Arch Surg 135:564"),
    _of(
        "cairns1994", 1994, "Cairns 1994, Arch Surg 129:769", "10.1001/archsurg.1994.01420310101019"
    ),
    _of("taylor2018", 2018, "Taylor 2018, pyoderma case study, wound-ostomy conference CS19"),
    _of(
        "hightech",
        None,
        "Emergency Management of the Hi-Tech Patient, stoma chapter (edition year not noted)",
    ),
    _of("pressure2007", 2007, "Pressure ulcer and an ostomy 2007, Ostomy Wound Manage column"),
    _of("swedish", None, "Swedish stoma nurses, ulcerated skin"),
    _of("folliculitis", 2000, "Ostomy association newsletters on folliculitis 1997-2000 (lay)"),
    # --- stoma -------------------------------------------------------------------------------
    _of(
        "persson2010",
        2010,
        "Persson 2010, Colorectal Dis 12:971",
        "10.1111/j.1463-1318.2009.01941.x",
    ),
    _of(
        "cottam2007", 2007, "Cottam 2007, Colorectal Dis 9:834", "10.1111/j.1463-1318.2007.01213.x"
    ),
    _of("ayik2020", 2020, "Ostomy complications and nursing care, n = 572, Wound Manag Prev"),
    _of("liu2024", 2024, "Liu 2024, World J Clin Cases 12:6620", "10.12998/wjcc.v12.i33.6620"),
    _of("problemstoma", None, "Textbook excerpt, The problem stoma"),
    _of("atlas", None, "Emergency medicine atlas, stoma prolapse"),
    _of("barr2004", 2004, "Barr 2004, Ostomy Wound Manage, stomal complications part 2"),
    _of("rnao", 2007, "Registered nurses' association of Ontario, definitions"),
    _of("prolapsereview", 2010, "Prolapse and retraction review, about 2010 (PMID 20967531)"),
    _of(
        "varicesreview",
        2013,
        "Stomal varices review 2013, Tech Coloproctol 17:163",
        "10.1007/s10151-012-0922-6",
    ),
    _of(
        "strauss2014",
        2014,
        "Strauss 2014, Korean J Gastroenterol 64:290",
        "10.4166/kjg.2014.64.5.290",
    ),
    _of("ectopicvarices", None, "Ectopic varices review, PMC2716887"),
    _of("white", None, "White, hepatic disease and stomal varices"),
    _of(
        "parastomalvarices2020",
        2020,
        "Parastomal varices without cirrhosis 2020, Case Rep Gastrointest Med 2020:2653848",
    ),
    _of("malignancy2010", 2010, "Carcinoma at an ileostomy 2010, Case Rep Med 2010:921328"),
    _of("vickers2025", 2025, "Vickers 2025, WCET J 45(1):20", "10.33235/wcet.45.1.20-26"),
    _of(
        "stomacancer2015",
        2015,
        "Cancer at a stoma 2015, World J Gastrointest Surg 7:94",
        "10.4240/wjgs.v7.i6.94",
    ),
    # --- output ------------------------------------------------------------------------------
    _of("arenas2015", 2015, "Arenas Villafranca 2015, Nutr J", "10.1186/s12937-015-0034-z"),
    _of("baker2011", 2011, "Baker 2011, Colorectal Dis 13:191", "10.1111/j.1463-1318.2009.02107.x"),
    _of(
        "nightingale2006",
        2006,
        "Nightingale and Woodward 2006, short-bowel guideline, Gut 55",
        "10.1136/gut.2006.091108",
    ),
    _of("vogel2022", 2022, "Vogel 2022, Tech Coloproctol 26:333", "10.1007/s10151-022-02580-6"),
    _of("gateshead", None, "Gateshead Health NHS ileostomy leaflets"),
    _of("obstruction", None, "Ostomy Canada Society, bowel obstructions"),
    _of("urostomy2014", 2014, "American Cancer Society 2014, urostomy problems"),
    _of("nhsileostomy", None, "NHS ileostomy complications (syndicated)"),
    _of("foodblockage2021", 2021, "Food blockage, teaching guide, Zane Cohen Centre 2021"),
    _of("blockagecard2012", 2012, "How to treat ileostomy blockage, association card 2012"),
    _of("evisceration2010", 2010, "Parastomal intestinal evisceration, West J Emerg Med"),
    _of("evisceration2020", 2020, "Late parastomal evisceration, Int J Colorectal Dis"),
    _of("fasciitis2016", 2016, "Peristomal necrotizing fasciitis, 14 patients, Wounds"),
    _of("urostomytips", None, "Top tips, Urostomy Association UK"),
    _of("urostomynz", None, "Urostomy complications, New Zealand ostomates' federation"),
    _of("neutropenia2018", 2018, "Outpatient fever and neutropenia in adults, US guideline"),
    _of("seekhelp2009", 2009, "Ostomy association Los Angeles 2009, when to seek help (lay)"),
    _of("leicester2005", None, "Adults with a high output stoma, Leicester hospitals B12/2005"),
    _of("ileostomymedicines", None, "Medication considerations, Zane Cohen Centre"),
    _of("aceileostomy2018", 2018, "ACE inhibitor or ARB, new ileostomy, Int J Colorectal Dis"),
    _of("acediuretics2024", 2024, "ACE inhibitor, ARB, diuretics, dehydration, BJS Open"),
    _of("stomalvarices", None, "Stomal varices treated by obliteration"),
    _of("childoutput2024", 2024, "High output in children, J Pediatr Gastroenterol Nutr"),
    _of("childsodium2014", 2014, "Sodium and growth of surgical infants, Pediatr Surg Int"),
    _of("greenvomit2014", 2014, "Term infants with green vomit, Arch Dis Child"),
    _of("infantskin", None, "Neonatal and infant skin care, Royal Children's Hospital"),
    _of("neonatalostomy", None, "Neonatal ostomy care, atlas, chapter 42"),
    # --- fitting -----------------------------------------------------------------------------
    _of(
        "hoeflok2017",
        2017,
        "Hoeflok 2017, J Wound Ostomy Continence Nurs 44(1):55",
        "10.1097/WON.0000000000000291",
    ),
    _of(
        "mcnichol2021",
        2021,
        "McNichol 2021, J Wound Ostomy Continence Nurs 48(6):524",
        "10.1097/WON.0000000000000831",
    ),
    _of(
        "colwell2022",
        2022,
        "Colwell 2022, J Wound Ostomy Continence Nurs 49(3):240",
        "10.1097/WON.0000000000000874",
    ),
    _of(
        "stoiadavis2022",
        2022,
        "Stoia-Davis 2022, J Wound Ostomy Continence Nurs 49(3):247",
        "10.1097/WON.0000000000000877",
    ),
    _of(
        "beitz2025",
        2025,
        "Beitz 2025, J Wound Ostomy Continence Nurs 52(1):36",
        "10.1097/WON.0000000000001139",
    ),
    _of("ascnuk2025", 2025, "Stoma care nurses UK, statement on convexity, 14 Nov 2025"),
    _of("complicationsreview", 2004, "Review of stoma complications, citing Barr and Efron"),
    _of(
        "barrierfit2022", 2022, "Colwell 2022, WCET J Suppl 42(1):s5", "10.33235/wcet.42.1.sup.s5-7"
    ),
    _of("martins2022", 2022, "Martins 2022, as cited in Br J Nurs product evaluation"),
    _of("rolstad2006", 2006, "Rolstad 2006, techniques in the use of convexity"),
    _of("enlarging2019", 2019, "Enlarging the opening of a pouch system 2019, Wound Manag Prev"),
    _of("green2018", 2018, "Green 2018, wound-ostomy conference poster CS12"),
    _of("sizing2020", 2020, "US hospital library 2020, sizing the opening"),
    _of("oklahoma1997", 1997, "Oklahoma ostomy association newsletter 1997 (lay)"),
    _of("metcalf2001", 2001, "Metcalf 2001, Nursing Times 97(12):43"),
    _of("weekly", None, "US nurse-teaching text on weekly measuring (weak)"),
    _of("mskcc", None, "Memorial Sloan Kettering ostomy guide"),
    _of("morgan2015", 2015, "Morgan 2015, Wound Care Advisor 4(3)"),
    _of("accessories", None, "Ostomy Canada Society, accessories"),
    _of("encyclopedia", None, "US public medical encyclopedia, ileostomy"),
    _of("peristomal", None, "Wound Care Advisor, managing peristomal problems"),
    _of("nca", None, "Northern Care Alliance NHS discharge leaflet"),
    _of("crusting", None, "Columbia River ostomy support group, crusting (lay)"),
    _of("germansky2017", 2017, "Germansky 2017, nurses' survey of crusting, n = 894"),
    _of("caretrials2014", 2014, "Systematic review of peristomal care trials to 2014"),
    _of("removers2013", 2013, "J Community Nursing 2013, adhesive removers (product-linked)"),
    _of("nswocc", 2007, "Nurses specialized in wound, ostomy and continence Canada, hernia"),
    # --- wear, supplies, follow-up -----------------------------------------------------------
    _of("richbourg2008", 2008, "Richbourg 2008, J Wound Ostomy Continence Nurs 35(5):504"),
    _of("leak2016", 2020, "Hedegaard 2020, WCET J 40(4):23"),
    _of("lcd", 2024, "US Medicare coverage rule L33828, ostomy supplies"),
    _of("eastkent", None, "East Kent Hospitals NHS stoma page"),
    _of("chelsea", None, "Chelsea and Westminster NHS stoma service"),
    _of("cambridgeprolapse", None, "Cambridge University Hospitals NHS leaflet on prolapse"),
    _of("cambridge", None, "Cambridge University Hospitals NHS urostomy discharge leaflet"),
    _of("salford", None, "Salford NHS discharge leaflet"),
    _of("icd10cm", 2026, "ICD-10-CM tabular list, US release of April 2026"),
    # --- the course over time ------------------------------------------------------------------
    _of(
        "smietanski2014",
        2014,
        "European Hernia Society classes, Smietanski 2014, Hernia 18:1",
        "10.1007/s10029-013-1162-z",
    ),
    _of(
        "antoniou2018",
        2018,
        "European Hernia Society guideline, Antoniou 2018, Hernia 22:183",
        "10.1007/s10029-017-1697-5",
    ),
    # --- special situations ------------------------------------------------------------------
    _of("pregnancy2025", 2025, "Pregnancy with a stoma, 67 pregnancies 2025, Inflamm Bowel Dis"),
    _of("pregnancyleaflet", None, "Canadian gut society, pregnancy with an ostomy"),
    _of("dementiauk", None, "Dementia UK, stoma and dementia"),
    _of("nicorandil2012", 2012, "Nicorandil, 21 cases 2012, Br J Dermatol, via a 2013 summary"),
    _of("psoriasis2017", 2017, "Peristomal psoriasis, 78 patients 2017, Clin Exp Dermatol"),
    _of("kaplan1958", 1958, "Kaplan and Meier 1958, J Am Stat Assoc 53:457"),
    _of("mantel1966", 1966, "Mantel 1966, Cancer Chemother Rep 50:163"),
    _of("garwood1936", 1936, "Garwood 1936, Biometrika 28:437"),
    _of("przyborowski1940", 1940, "Przyborowski and Wilenski 1940, Biometrika 31:313"),
    _of("sen1968", 1968, "Sen 1968, J Am Stat Assoc 63:1379"),
    _of("pocock1977", 1977, "Pocock 1977, Biometrika 64:191"),
    _of("rao1992", 1992, "Rao and Scott 1992, Biometrics 48:577"),
    _of("simes1986", 1986, "Simes 1986, Biometrika 73:751"),
    _of("bland1986", 1986, "Bland and Altman 1986, Lancet 1:307"),
    # --- cited by plans signed earlier alone -----------------------------------------------
    _of(
        "davis2022",
        2022,
        "Davis 2022, colon and rectal surgeons' guideline, Dis Colon Rectum 65:1173",
        "10.1097/DCR.0000000000002498",
    ),
    _of("carville2022", 2022, "Carville 2022, WCET J 42(3):12", "10.33235/wcet.42.3.12-22"),
    _of("separation2021", 2021, "Mucocutaneous separation, Wound Manag Prev"),
    _of("pregnancy2022", 2022, "Pregnancy after stoma surgery, UK audit 2022, Colorectal Dis"),
    # --- no published source -----------------------------------------------------------------
    Source("common_practice", Mark.COMMON_PRACTICE, None, Mark.COMMON_PRACTICE),
    Source("from_memory", Mark.FROM_MEMORY, None, Mark.FROM_MEMORY),
    Source("design_value", Mark.DESIGN_VALUE, None, Mark.DESIGN_VALUE),
)

#: By id.
SOURCES: Final[dict[str, Source]] = {source.id: source for source in _ALL}

#: No rule rests on them any more; plans signed earlier cite them.
EARLIER: Final = frozenset({"davis2022", "carville2022", "separation2021", "pregnancy2022"})

# Short names for the pseudo sources, which most rules need.
PRACTICE: Final = "common_practice"
MEMORY: Final = "from_memory"
DESIGN: Final = "design_value"
#: What is cited where no source says it.
BASES: Final = frozenset({PRACTICE, MEMORY, DESIGN})
