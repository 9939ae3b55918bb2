"""Sources of published figures, by key.

`verified`: `yes` = figures were read in a published copy; `computed` = formula re-run from stated inputs;
`memory` = recalled, a default to override.
"""

from __future__ import annotations

from typing import NamedTuple


class Source(NamedTuple):
    """Where a figure or a relation comes from."""

    key: str
    title: str
    clause: str
    url_or_note: str
    verified: str


_SOURCES = (
    # wire
    Source("iec-60028", "IEC 60028, International standard of resistance for copper", "",
           "17.241 nohm m at 20 degC, 0.00393 per K; agrees with NEC chapter 9 table 8 solid rows", "computed"),
    Source("iec-60228", "IEC 60228, Conductors of insulated cables", "class 5, plain copper",
           "maximum resistance at 20 degC, three published copies agree", "yes"),
    Source("astm-b258", "ASTM B258, Standard nominal diameters and cross-sectional areas of AWG sizes", "",
           "geometric series of 39 steps from 0.005 in to 0.46 in", "computed"),
    Source("nec-ch9-table8", "NFPA 70, National Electrical Code", "chapter 9 table 8",
           "stranded rows exceed solid rows by 1.8 to 2.6 %", "yes"),
    Source("sae-j1128-sheet", "Wire maker's data sheet for SAE J1128 GXL wire, 2015", "outside diameter",
           "20 to 8 AWG", "yes"),
    Source("thin-wall-sheet", "Trade data sheet for thin-wall vehicle cable to ISO 6722", "outside diameter",
           "United Kingdom cable trade", "yes"),
    Source("33cfr183-table5", "33 CFR part 183 subpart I, Electrical systems", "183.425 Table 5",
           "https://federal.elaws.us/cfr/title-33/section-183.425", "yes"),
    Source("33cfr183-table5-note1", "33 CFR part 183 subpart I, Electrical systems", "183.425 Table 5 note 1",
           "engine-space factor; only the 105 C factor was read, the others are recalled and agree with "
           "sqrt((T-50)/(T-30)) within 0.01, save 200 C", "memory"),
    Source("33cfr183-table5-note2", "33 CFR part 183 subpart I, Electrical systems",
           "183.425 Table 5 note 2; 183.435(b)", "bundle factors; law at 50 V and more, good practice below",
           "yes"),
    Source("heat-balance", "Steady heat balance of a conductor", "",
           "rise follows the square of the current; same law as 33 CFR 183.425 Table 5 note 1", "computed"),
    Source("faa-ac-43-13-1b-drop", "FAA AC 43.13-1B CHG 1, Acceptable methods", "tables 11-7 and 11-8",
           "two prints differ from their product: 3.60 V for 3.555 V, .366 V for 0.491 V", "yes"),
    Source("marine-cmil-rule", "Circular-mil rule of small-craft practice", "K = 10.75",
           "worked bilge-pump example on a marine retailer's page", "yes"),
    Source("iso-10133-formula", "ISO 10133, Small craft, extra-low-voltage d.c. installations", "annex formula",
           "E = 0.0164 I L / S as printed on a public calculator page", "yes"),
    Source("mast-lamp-example", "Marine retailer's worked example of a mast lamp cable", "", "56 m/(ohm mm2)",
           "yes"),
    Source("iec-60364-5-54", "IEC 60364-5-54, Earthing arrangements and protective conductors", "annex A",
           "k values as printed in BS 7671 tables 43.1 and 54.2 to 54.6 and NEN 1010 table 54.3", "yes"),
    Source("onderdonk", "Onderdonk's fusing equation", "", "as printed in circuit-board trade articles", "yes"),
    # fuses and interrupting capacity
    Source("vec-fuse-types", "Vehicle Electric Container 1.2.0 data standard", "class FuseType",
           "type letters C, E, F, SF30, SF51, A1", "yes"),
    Source("fuse-article-copies", "Encyclopaedia article on vehicle fuses, published copies of 2007 and 2016", "",
           "sizes, ratings, colours", "yes"),
    Source("fuse-markings-page", "German electronics reference page on fuse markings", "",
           "blade colours, 1 to 120 A", "yes"),
    Source("blade-colour-shop-table", "Retailer's blade-fuse colour table", "", "0.5 to 30 A", "yes"),
    Source("maxi-colour-article", "Article on maxi fuse colours, 2016", "", "20 to 80 A", "yes"),
    Source("vehicle-electrics-textbook", "Textbook of vehicle electrical systems", "table 3.2", "3 to 30 A",
           "yes"),
    Source("blade-sheet-transcript", "Public transcript of a fuse maker's 32 V sheets", "2023 to 2025",
           "colour notes, cold resistance", "yes"),
    Source("blade-design-notes", "Public hardware design notes quoting blade-fuse sheets", "",
           "32 V, 1000 A at 32 V", "yes"),
    Source("off-grid-fuse-article", "Off-grid supplier's article on fuse breaking capacity", "",
           "blade 1 kA, M5 strip 1 kA, M8 strip 2 kA", "yes"),
    Source("fuse-selection-guide", "Motor factor's fuse guide", "factor 1.25",
           "600 W at 12 V is 50 A and asks for 62.5 A", "yes"),
    Source("abyc-e11-table-va", "ABYC E-11, table V-A", "interrupting capacity",
           "as reproduced on a marine wire supplier's page", "yes"),
    Source("abyc-e11-large-banks", "ABYC E-11, newer edition", "table limit 2200 CCA or 500 Ah",
           "as quoted publicly; above it the battery maker's short-circuit rating", "yes"),
    Source("class-t-forum", "Owners' forum on class T fuses, quoting curves", "200 % and 600 %",
           "about 50 s and about 0.01 s; low grade", "yes"),
    Source("fuse-gates", "Opening-time gates of ISO 8820-3, -4 and -5", "table fuse_gates of the package",
           "recalled; the blade maxima agree with relay sheets; the device's own curve decides", "memory"),
    # batteries
    Source("peukert-label-form", "Peukert's law from the rated capacity", "",
           "tutoring site example: 120 Ah, exponent 1.4, 120 A, 0.3 h", "yes"),
    Source("peukert-one-ampere-form", "Peukert's law from the capacity at one ampere", "",
           "calculation tutorial: 250 Ah, exponent 1.3, 20 A, 5.088631644 h", "yes"),
    Source("battery-guide", "Retail battery guide", "charge voltage by type", "absorption ranges", "yes"),
    Source("deep-cycle-faq", "Deep-cycle battery FAQ", "charge rate", "C/8 flooded, C/20 gel, C/4 AGM", "yes"),
    Source("battery-education", "Battery education text", "depth of discharge", "50 % for lead-acid", "yes"),
    Source("off-grid-battery", "Off-grid battery page", "Peukert exponents", "ranges by type", "yes"),
    Source("electrical-encyclopaedia", "Electrical encyclopaedia entry on lead-acid cells", "",
           "charge efficiency 85 %", "yes"),
    Source("lithium-pack-sheet", "Data sheet of a 12.8 V lithium-iron-phosphate pack", "", "14.4 V CC/CV", "yes"),
    Source("lithium-module-manual", "Telecom lithium-iron-phosphate module manual", "tables 4.3 and 4.4",
           "0.5 C standard charge at 25 to 50 degC, none below 0 degC", "yes"),
    Source("battery-comparison", "Battery comparison page", "", "98 % charge efficiency, 80 to 100 % depth", "yes"),
    Source("engineering-knowledge-base", "Engineering knowledge base on batteries", "",
           "exponent 1.05 for lithium-iron-phosphate", "yes"),
    Source("cranking-rating-definition", "Definition of cold cranking amperes", "",
           "30 s at -18 degC with 7.2 V kept", "yes"),
    Source("half-rating-load-test", "Load test of a starting battery", "half of the cold cranking rating for 15 s",
           "recalled workshop practice; no published copy was read", "memory"),
    Source("parasitic-drain-bulletin", "Vehicle service bulletin on parasitic drain", "",
           "Ah from reserve minutes x 0.6; 40 % used is no-start", "yes"),
    Source("engine-battery-page", "Engine battery charge page, table of charge and rest voltage", "flooded",
           "12.60 to 12.68 V full, 12.20 to 12.24 V half, after 8 h of rest", "yes"),
    Source("agm-owner-manual", "Vehicle owner's manual, AGM charging table", "",
           "12.8 to 13.2 V full, 12.3 V half", "yes"),
    Source("lithium-charge-table", "Lithium state-of-charge reference table", "at rest",
           "13.3 V at 70 %, 12.8 V at 20 %; flat between, so 0.1 V is 20 to 30 % of charge", "yes"),
    Source("solar-worksheets", "Stand-alone photovoltaic battery worksheets", "temperature multiplier",
           "1.00 at 80 degF to 1.59 at 20 degF; two independent copies agree", "yes"),
    Source("cut-off-settings", "Appliance manuals, cut-out and restart voltages", "",
           "restart 1.2 to 2.3 V above the cut-out; 11.8 V and 12.0 V or more on a starter battery", "yes"),
    # protection and sizing rules
    Source("33cfr183-455", "33 CFR part 183 subpart I, Electrical systems", "183.455(a) to (c)",
           "a device at the source; 7 in, or 40 in enclosed; device rating against Table 5", "yes"),
    Source("33cfr183-455-voltage", "33 CFR part 183 subpart I, Electrical systems", "183.455(d)",
           "device voltage not below the nominal circuit voltage; the California rule below says the same", "memory"),
    Source("33cfr183-425-least", "33 CFR part 183 subpart I, Electrical systems", "183.425(d), (e)",
           "16 AWG alone, 18 AWG in a sheath", "yes"),
    Source("abyc-e11-battery-device", "ABYC E-11", "device near a battery",
           "7 in, or 72 in sheathed straight off the post, as a marine surveyor quotes it",
           "yes"),
    Source("abyc-e11-drop", "ABYC E-11", "voltage drop",
           "3 % critical, 10 % other, both ways, as publicly quoted", "yes"),
    Source("iso-10133-least", "ISO 10133:2012, Small craft, extra-low-voltage d.c. installations", "7.7",
           "1 mm2 alone, 0.75 mm2 inside a multi-core sheath; public excerpt", "yes"),
    Source("faa-ac-43.13-1b-device", "FAA AC 43.13-1B CHG 1, Acceptable methods", "par. 11-47, 11-48",
           "device close to the source; the conductor carries more than the device", "yes"),
    Source("faa-ac-43.13-1b-switches", "FAA AC 43.13-1B CHG 1, Acceptable methods", "table 11-4",
           "switch factors, motor 2", "memory"),
    Source("body-builder-guide", "Chassis maker's body-builder guide, 2004", "load on a factory fuse",
           "80 % in the passenger compartment, 60 % in the engine compartment; from an ambulance manual", "yes"),
    Source("california-equipment", "California DOT equipment electrical standard", "3.4",
           "conductors protected to their capacity; device voltage", "yes"),
    Source("46cfr111-15-25", "46 CFR part 111, Electric systems", "111.15-25(a)",
           "an overload device in each battery conductor except engine cranking", "yes"),
    Source("46cfr111-77-1", "46 CFR part 111, Electric systems", "111.77-1",
           "one appliance on a circuit: device at most the greater of 150 % and 15 A", "yes"),
    Source("nec-552-10", "NFPA 70, National Electrical Code, 2008", "552.10",
           "battery bond 8 AWG at least, and not smaller than the ungrounded lead", "yes"),
    Source("holder-report", "Trade writer on melted in-line fuse holders", "",
           "holders melt at 25 to 30 A with sound fuses; contact resistance heats below the rating", "yes"),
    Source("fridge-service-note", "Compressor fridge maker's service note", "",
           "stops below 10.9 V; lamp blinks", "yes"),
    Source("jump-cable-manual", "Repair manual, jump cables", "",
           "16 mm2 for petrol to 2.5 l, 25 mm2 for larger or diesel", "yes"),
    Source("battery-sensor-bulletin", "Vehicle maker's bulletin on the battery sensor", "",
           "a ground at the sensed post makes the sensor report a discharged battery", "yes"),
    Source("hoist-recall", "Recall of 137 truck hoists for poor pump grounding", "",
           "remedy: 4 AWG to the battery negative",
           "yes"),
    Source("inverter-recall", "Recall of 648 motor homes with unfused inverters", "",
           "remedy: 125 A in the battery bay",
           "yes"),
    Source("ammeter-recall", "Recall of 767 ambulances with unprotected ammeter wires", "", "", "yes"),
    Source("marker-lamp-recall", "Recall of 23 238 truck bodies, marker lamps on a large shared device", "",
           "remedy: a fuse for the branch", "yes"),
    Source("bus-bar-bulletin", "Body builder bulletin for a hybrid utility vehicle", "",
           "three circuits a bar, 45 A for all", "yes"),
    Source("radio-installers-code", "National code of practice for radio installations in vehicles", "",
           "no fuses in parallel to gain rating, none in the negative", "yes"),
    Source("parallel-battery-revision", "ABYC E-11, revision of 2025", "batteries in parallel above 500 Ah",
           "a device for each battery, as quoted publicly", "yes"),
    Source("relay-sheet", "Relay maker's data sheet", "continuous current at 85 degC",
           "overload multiples of ISO 8820-3: 0.5 s at 350 % of a fuse's rating", "yes"),
    # no publication
    Source("arithmetic", "Arithmetic from definitions", "", "needs no source", "computed"),
    Source("recalled", "Recalled, not found in a published copy", "", "a default to override", "memory"),
)  # fmt: skip

_BY_KEY = {source.key: source for source in _SOURCES}


def cite(key: str) -> Source:
    """The source of a key.

    Raises KeyError, with the key named, for an unknown one.
    """
    if key not in _BY_KEY:
        raise KeyError(f"no source `{key}`")
    return _BY_KEY[key]


def keys() -> tuple[str, ...]:
    """All keys, in the order of the list."""
    return tuple(_BY_KEY)
