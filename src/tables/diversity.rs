//! Allowances for diversity in a single dwelling.

use super::about::tables;

tables! {
    figures {
        /// Lighting: this share of the total.
        LIGHTING / LIGHTING_TABLE: Ratio = 0.66; ON_SITE_GUIDE "Appendix A", "lighting: share of the total";
        Seen, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2";

        /// Heating and power that no other line names: this much in full …
        HEATING_IN_FULL / HEATING_IN_FULL_TABLE: Amps = 10.0; ON_SITE_GUIDE "Appendix A", "heating and power: in full up to";
        Seen, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2";

        /// … and this share of the rest.
        HEATING_REST / HEATING_REST_TABLE: Ratio = 0.5; ON_SITE_GUIDE "Appendix A", "heating and power: share of the rest";
        Seen, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2";

        /// Cooking: this much in full …
        COOKING_IN_FULL / COOKING_IN_FULL_TABLE: Amps = 10.0; ON_SITE_GUIDE "Appendix A", "cooking: in full up to";
        Seen, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2";

        /// … this share of the rest …
        COOKING_REST / COOKING_REST_TABLE: Ratio = 0.3; ON_SITE_GUIDE "Appendix A", "cooking: share of the rest";
        Seen, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2";

        /// … and this much where the control unit has a socket-outlet.
        COOKING_SOCKET / COOKING_SOCKET_TABLE: Amps = 5.0; ON_SITE_GUIDE "Appendix A", "cooking: for a socket-outlet in the control unit";
        Seen, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2";

        /// Instantaneous showers: the two largest in full, this share of every other. (One site prints 20 %; all others 25 %.)
        FURTHER_SHOWER / FURTHER_SHOWER_TABLE: Ratio = 0.25; ON_SITE_GUIDE "Appendix A", "showers: share of those after the two largest";
        Seen, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2";

        /// Standard circuits of socket-outlets: the largest in full, this share of every other.
        FURTHER_SOCKET_CIRCUIT / FURTHER_SOCKET_CIRCUIT_TABLE: Ratio = 0.4; ON_SITE_GUIDE "Appendix A", "socket circuits: share of those after the largest";
        Seen, "J. Whitfield, The Electricians Guide, 5th ed. (EPA Press), Table 6.2; SELECT, answer to a reader's question";
    }
}
