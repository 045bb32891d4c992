//! When a protective device disconnects, and how soon it must.

use super::about::tables;

tables! {
    columns {
        /// Largest rating of a final circuit that Table 41.1's times apply to, by whether it has a socket-outlet (1) or not (0).
        FINAL_CIRCUIT: Count => Amps; BS_7671_2018 "411.3.2.2", "largest final circuit under Table 41.1: fixed equipment alone (0), with a socket-outlet (1)";
        Quoted, "the IET's forum (EngX), thread on the On-Site Guide's disconnection times; before the 18th edition it was 32 A for all";
        0 => 32.0, 1 => 63.0;
    }
    figures {
        /// Nominal voltage above 120 V and to 230 V, TN, final circuits.
        TN_FINAL / TN_FINAL_TABLE: Seconds = 0.4; BS_7671_2008 "Table 41.1", "disconnection time, TN, final circuit";
        Quoted, "a copy of the 2008 table on an electrician's site, whose name was not kept";

        /// The same, TT.
        TT_FINAL / TT_FINAL_TABLE: Seconds = 0.2; BS_7671_2008 "Table 41.1", "disconnection time, TT, final circuit";
        Quoted, "a copy of the 2008 table on an electrician's site, whose name was not kept";

        /// Other circuits, TN.
        TN_OTHER / TN_OTHER_TABLE: Seconds = 5.0; BS_7671_2008 "411.3.2.3", "disconnection time, TN, other circuits";
        Quoted, "an electricians' blog of 2009, whose name was not kept";

        /// Other circuits, TT.
        TT_OTHER / TT_OTHER_TABLE: Seconds = 1.0; BS_7671_2008 "411.3.2.4", "disconnection time, TT, other circuits";
        Quoted, "an electricians' blog of 2009, whose name was not kept";

        /// Least factor of the supply voltage.
        C_MIN / C_MIN_TABLE: Ratio = 0.95; BS_7671 "411.4.4", "least factor of the supply voltage";
        FromMemory, "not seen; with it Table 41.3's Type B 32 A is the 1.37 Ω quoted on the newsgroup uk.d-i-y, 14 Feb 2019";

        /// Multiple of its rating at which a Type B circuit breaker disconnects at once.
        TYPE_B / TYPE_B_TABLE: Ratio = 5.0; EN_60898 "", "Type B: multiple of its rating that disconnects at once";
        FromMemory, "not seen; with it Table 41.3's Type B 32 A is the 1.37 Ω quoted on the newsgroup uk.d-i-y, 14 Feb 2019";

        /// The same of a Type C circuit breaker.
        TYPE_C / TYPE_C_TABLE: Ratio = 10.0; EN_60898 "", "Type C: multiple of its rating that disconnects at once";
        FromMemory, "not seen";

        /// The same of a Type D circuit breaker.
        TYPE_D / TYPE_D_TABLE: Ratio = 20.0; EN_60898 "", "Type D: multiple of its rating that disconnects at once";
        FromMemory, "not seen";

        /// How long a circuit breaker takes at most where it disconnects at once.
        AT_ONCE / AT_ONCE_TABLE: Seconds = 0.1; EN_60898 "", "time within which a breaker disconnects at once";
        FromMemory, "not seen; a garage supply worked on the newsgroup uk.d-i-y, 14 Feb 2019, takes 0.1 s";

        /// From a table's limit, at working temperature, to what may be measured cold.
        MEASURED / MEASURED_TABLE: Ratio = 0.8; BS_7671_2015 "Appendix 3", "factor for a loop impedance measured cold";
        Quoted, "NICEIC Connections, spring 2015, p. 61";

        /// Touch voltage limit of a residual-current device's circuit.
        TOUCH_LIMIT / TOUCH_LIMIT_TABLE: Volts = 50.0; BS_7671 "411.5.3", "touch voltage limit";
        FromMemory, "not seen";

        /// Residual operating current of the device that protects a charge point: at most.
        RESIDUAL / RESIDUAL_TABLE: Amps = 0.03; BS_7671_2018 "722.531.3.101", "residual current of a charge point's device";
        Quoted, "Electrical Contracting News, a switchgear maker's technical column", also "the IET's forum (EngX) quoting the words";

        /// An electrode of more than this may not be stable.
        UNSTABLE / UNSTABLE_TABLE: Ohms = 200.0; BS_7671 "Table 41.5, note 2", "electrode resistance that may not be stable";
        FromMemory, "not seen";
    }
}
