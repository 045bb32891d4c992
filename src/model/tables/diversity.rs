//! Allowances for diversity in a single dwelling.

use super::about::tables;

tables! {
    figures {
        /// Lighting: this share of the total.
        LIGHTING / LIGHTING_TABLE: Ratio = 0.66; ON_SITE_GUIDE "Appendix A", "lighting: share of the total";
        Quoted, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2", also "a contractor's page quoting IET Guidance Note 1 Table H2, whose name was not kept";

        /// Heating and power that no other line names: this much in full …
        HEATING_IN_FULL / HEATING_IN_FULL_TABLE: Amps = 10.0; ON_SITE_GUIDE "Appendix A", "heating and power: in full up to";
        Quoted, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2", also "a contractor's page quoting IET Guidance Note 1 Table H2, whose name was not kept";

        /// … and this share of the rest.
        HEATING_REST / HEATING_REST_TABLE: Ratio = 0.5; ON_SITE_GUIDE "Appendix A", "heating and power: share of the rest";
        Quoted, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2", also "a contractor's page quoting IET Guidance Note 1 Table H2, whose name was not kept";

        /// Cooking: this much in full …
        COOKING_IN_FULL / COOKING_IN_FULL_TABLE: Amps = 10.0; ON_SITE_GUIDE "Appendix A", "cooking: in full up to";
        Quoted, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2", also "a contractor's page quoting IET Guidance Note 1 Table H2, whose name was not kept";

        /// … this share of the rest …
        COOKING_REST / COOKING_REST_TABLE: Ratio = 0.3; ON_SITE_GUIDE "Appendix A", "cooking: share of the rest";
        Quoted, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2", also "a contractor's page quoting IET Guidance Note 1 Table H2, whose name was not kept";

        /// … and this much where the control unit has a socket-outlet.
        COOKING_SOCKET / COOKING_SOCKET_TABLE: Amps = 5.0; ON_SITE_GUIDE "Appendix A", "cooking: for a socket-outlet in the control unit";
        Quoted, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2", also "a contractor's page quoting IET Guidance Note 1 Table H2, whose name was not kept";

        /// Instantaneous showers: the two largest in full, this share of every other. (One site prints 20 %; all others 25 %.)
        FURTHER_SHOWER / FURTHER_SHOWER_TABLE: Ratio = 0.25; ON_SITE_GUIDE "Appendix A", "showers: share of those after the two largest";
        Quoted, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2", also "a contractor's page quoting IET Guidance Note 1 Table H2, whose name was not kept";

        /// Standard circuits of socket-outlets: the largest in full, this share of every other.
        FURTHER_SOCKET_CIRCUIT / FURTHER_SOCKET_CIRCUIT_TABLE: Ratio = 0.4; ON_SITE_GUIDE "Appendix A", "socket circuits: share of those after the largest";
        Quoted, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2", also "a contractor's page quoting IET Guidance Note 1 Table H2, whose name was not kept; SELECT, answer to a reader's question";
    }
}
