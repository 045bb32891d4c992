//! The list of all facts: for each its name in the code, its type, its id and its word.
//!
//! The ids ([`FactId`](super::FactId)), the fields of [`Site`](super::Site), the accessors of [`KnownCase`](super::case::KnownCase) and the
//! lookups by id are made from this list. A new fact is a line here, and its inference in [`infer`](super::infer()).

/// Passes the list to a macro.
macro_rules! each_fact {
    ($then:ident) => {
        $then! {
            /// Phases and loop.
            supply: Supply = Supply, "supply";
            /// The main fuse.
            main_fuse: Amps = MainFuse, "main-fuse";
            /// What the home draws already, after diversity.
            existing: Amps = ExistingDemand, "existing-demand";
            /// The earthing arrangement.
            earthing: EarthingArrangement = Earthing, "earthing";
            /// Whether gas wants main bonding.
            gas: bool = GasBonding, "gas-bonding";
            /// Whether water wants main bonding.
            water: bool = WaterBonding, "water-bonding";
            /// Whether oil, LPG or structural steel wants main bonding.
            other_metal: bool = OtherBonding, "other-bonding";
            /// What the board has room for.
            board: BoardState = Board, "board";
            /// Whether the right device can be had for the board.
            device: bool = Device, "device";
            /// Whether there is a switch between meter and board.
            switch_after_meter: bool = SwitchAfterMeter, "switch-after-meter";
            /// Whether the board has surge protection.
            surge_device: bool = SurgeDevice, "surge-device";
            /// Length of the route.
            route_length: Metres = RouteLength, "route-length";
            /// What it runs along.
            route_along: Along = RouteAlong, "route-along";
            /// Whether what is dug is hard to dig.
            hard_ground: bool = HardGround, "hard-ground";
            /// Whether there is a wall to fix to at the spot.
            wall: bool = Wall, "wall";
            /// Whether the signal is weak at the spot.
            weak_signal: bool = WeakSignal, "weak-signal";
            /// Whether mobile data is received at the spot.
            mobile_signal: bool = MobileSignal, "mobile-signal";
            /// Which way a data cable goes to the router.
            router: RouterWay = Router, "router";
            /// Whether another charge point stays.
            other_point: bool = OtherPoint, "other-point";
            /// Whether generation or storage has to be cleared with the network operator.
            generation_to_clear: bool = Generation, "generation";
            /// Whether an outbuilding's board is meant, and whether its feed carries a charge point.
            feed: Feed = Feed, "feed";
            /// Whether the home's electrode, where it has one, can be proved.
            electrode_good: bool = Electrode, "electrode";
            /// What of a circuit that is there already can be used.
            circuit: CircuitThere = Circuit, "circuit";
            /// Whether tails and main earthing conductor are large enough.
            conductors: MainConductors = MainConductors, "main-conductors";
        }
    };
}

pub(super) use each_fact;
