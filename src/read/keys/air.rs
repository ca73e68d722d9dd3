//! Weather, loads and crew.

use super::{Key, Table, key, must, table};

pub(super) const TABLES: &[Table] = &[
    table(
        "weather",
        "[weather]",
        "air over the work and the cure",
        &[
            key(
                "day",
                "{ temperature = \"15 °C\", humidity = \"62 %\" }",
                "warmest part of the day",
            ),
            key(
                "night",
                "{ temperature = \"7 °C\", humidity = \"86 %\" }",
                "coldest part of the night",
            ),
            key("temperature", "\"20 °C\"", "air that stays the same, as in a heated shed"),
            key("humidity", "\"55 %\"", "relative humidity that stays the same"),
            key(
                "hours",
                "[{ at = \"2026-05-16 08:00\", temperature = \"9 °C\", humidity = \"80 %\" }]",
                "air by the hour, from a forecast; a clock without a date holds every day",
            ),
            key("sky", "\"changing\"", "covered, clear or changing"),
            key("sun-warms", "\"15 K\"", "skin over air in the sun at noon"),
            key("night-cools", "\"4 K\"", "skin below air in a clear night"),
            key("daylight", "[\"05:30\", \"20:45\"]", "when it is light enough to work on a roof"),
            key("latitude", "\"50°\"", "degrees north, minus for south; for the hours of light"),
            key("altitude", "\"250 m\"", "height over the sea"),
            key("record-low", "\"-20 °C\"", "lowest temperature that the panels will ever meet"),
        ],
    ),
    table("weather.day", "day", "warmest part of the day", AIR),
    table("weather.night", "night", "coldest part of the night", AIR),
    table(
        "weather.hours",
        "hours",
        "air at one hour",
        &[
            must("at", "\"2026-05-16 08:00\"", "date and clock, or the clock alone"),
            must("temperature", "\"9 °C\"", "temperature of the air"),
            must("humidity", "\"80 %\"", "relative humidity"),
            key("sky", "\"rain\"", "dry or rain, until the next hour of the list"),
        ],
    ),
    table(
        "loads",
        "[loads]",
        "wind, snow and measured coefficients, where the usual ones do not fit",
        &[
            key("head-wind", "\"3 m/s\"", "wind from ahead on top of the design speed"),
            key("cross-wind", "\"8 m/s\"", "wind from the side while driving"),
            key(
                "storm-wind",
                "\"26 m/s\"",
                "basic wind of the parked storm by the map of your country",
            ),
            key(
                "uplift",
                "{ coefficient = 0.9, source = \"wind tunnel report 12\" }",
                "measured uplift coefficient of the array",
            ),
            key(
                "storm-pressure",
                "{ pressure = \"0.8 kPa\", source = \"harbour weather station\" }",
                "peak pressure of the parked storm, instead of the computed one",
            ),
            key("snow", "\"0.6 kPa\"", "snow load on the ground, where snow counts"),
            key("crash-class", "\"m1-n1\"", "vehicle class for crash levels, as information"),
        ],
    ),
    table(
        "loads.uplift",
        "uplift",
        "measured uplift coefficient of the array",
        &[
            must("coefficient", "0.9", "times the dynamic pressure the air lifts"),
            must("source", "\"wind tunnel report 12\"", "where it was measured"),
        ],
    ),
    table(
        "loads.storm-pressure",
        "storm-pressure",
        "peak pressure of the parked storm",
        &[
            must("pressure", "\"0.8 kPa\"", "peak pressure of the gusts"),
            must("source", "\"harbour weather station\"", "where it is from"),
        ],
    ),
    table(
        "crew",
        "[crew]",
        "who works and when",
        &[
            key("people", "2", "how many people"),
            key("start", "\"2026-05-16\"", "first day of work, year first"),
            key("day", "[\"08:00\", \"18:00\"]", "when work begins and ends"),
            key(
                "on",
                "[\"saturday\", \"sunday\"]",
                "days of the week with work; all if not stated",
            ),
            key("spare-tools", "[\"drill machine\"]", "tools that there are two of"),
        ],
    ),
];

const AIR: &[Key] = &[
    must("temperature", "\"15 °C\"", "temperature of the air"),
    must("humidity", "\"62 %\"", "relative humidity"),
];
