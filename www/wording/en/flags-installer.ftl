# Flags, as the installer reads them: a short name, why it matters, what to do.

flag-asbestos-when-drilling-name = Asbestos when drilling
flag-asbestos-when-drilling-why = Soffits, panels, boxing and garage roofs of that age may hold asbestos.
flag-asbestos-when-drilling-do = See what is drilled through before drilling; keep to brick and timber, or have the panel tested.

flag-backing-board-suspect-name = Suspect backing board
flag-backing-board-suspect-why = Such boards may hold asbestos; they are not drilled or disturbed before somebody has looked.
flag-backing-board-suspect-do = Look and give an opinion; have it tested where work there is planned, or mount elsewhere. It is not condemned from a photo.

flag-battery-beside-name = Battery beside the charge point
flag-battery-beside-why = Left to itself it empties into the car at night, and while it charges it is a load of its own.
flag-battery-beside-do = Put its sensor where it does not see the car, or set it to rest while the car charges; count its charging.

flag-board-full-name = Board is full
flag-board-full-why = The charge point wants an enclosure of its own, or a way must be freed.
flag-board-full-do = Plan an enclosure fed by splitting the tails; look at the photo for a way that can be freed.

flag-board-seen-disagrees-name = What was seen of the board disagrees
flag-board-seen-disagrees-why = Whether the board can be used at all rests on what protects its circuits.
flag-board-seen-disagrees-do = Look at the photo of the board and correct the answer that is wrong.

flag-bonding-not-seen-name = Bonding not seen
flag-bonding-not-seen-why = Main bonding is in place before a charge point is added. A clamp not seen is not bonding absent.
flag-bonding-not-seen-do = Look for the clamp on the survey; quote the bonding as an extra, and plan its route to the earth bar.

flag-bought-already-name = Charge point bought already
flag-bought-already-why = It is judged by its product standard and the maker’s instructions; without papers it is not priced for fixing.
flag-bought-already-do = Ask for photos of its papers and plate; say before a date whether you will fix it. Its seller answers for it; one that you supply instead you sell.

flag-builders-cable-name = Builder’s cable
flag-builders-cable-why = It is of use only if its size, route and both ends can be proved.
flag-builders-cable-do = Ask for photos of both ends and any certificate; test it before relying on it.

flag-buried-services-name = Buried services
flag-buried-services-why = A spade into a gas pipe or supply cable is dangerous; an electrode wants its distance from buried metal too.
flag-buried-services-do = Ask for the service drawings, scan before digging, dig by hand near what is known.

flag-cable-on-a-fence-name = Cable on a fence
flag-cable-on-a-fence-why = A fence is often the neighbour’s, and seldom lasts as long as a cable: it moves, rots and is renewed.
flag-cable-on-a-fence-do = Ask whose fence it is and how sound; look for a wall or the ground, else put posts of its own.

flag-carrier-rating-is-a-bound-name = Carrier rating is an upper bound
flag-carrier-rating-is-a-bound-why = A carrier marked for a large fuse often holds a smaller one.
flag-carrier-rating-is-a-bound-do = Take the rating as an upper bound; have the fuse itself confirmed before relying on the headroom.

flag-communal-meter-name = Communal meter
flag-communal-meter-why = Getting in, and working there, is for whoever manages the building to allow; the route crosses shared parts.
flag-communal-meter-do = Ask who holds the key and who manages the building, before a date.

flag-conservation-area-name = Conservation area
flag-conservation-area-why = Consent is seldom wanted for a charge point, but a local direction may ask for it.
flag-conservation-area-do = Have them ask the planning authority whether a local direction applies.

flag-demand-over-limit-name = Demand over the limit
flag-demand-over-limit-why = The network operator is asked first; over the main fuse it is an upgrade, and perhaps tails or meter with it.
flag-demand-over-limit-do = Go through the loads with them; apply with the limit and its setting where there is one.

flag-device-to-confirm-name = Device for the board to be confirmed
flag-device-to-confirm-why = The way is only of use with a double-pole 30 mA device of the kind and maker that the board takes.
flag-device-to-confirm-do = Read the maker from the photo and look the device up; otherwise an enclosure of its own.

flag-digging-name = Digging
flag-digging-why = A trench takes many times the hours of a cable on a wall; whose ground it is and what lies there must be known.
flag-digging-do = Walk the route; price the trench and what is put back by the metre.

flag-earthing-unknown-name = Earthing unknown
flag-earthing-unknown-why = The open-PEN measure is decided as for PME, whatever is likeliest, and is in the price; the fault loop is taken at the highest external impedance still possible.
flag-earthing-unknown-do = Look where the earthing conductor goes; measure the external impedance before energising.

flag-footway-crossing-name = Route crosses a footway
flag-footway-crossing-why = Nothing may be laid across or under a footway without the highway authority.
flag-footway-crossing-do = Look for a way round on their own ground; otherwise nothing is planned before the authority has answered. Name any grant for a channel.

flag-fuse-rating-not-read-name = Main fuse not read
flag-fuse-rating-not-read-why = The main fuse is assumed from the age of the home until somebody has read it.
flag-fuse-rating-not-read-do = Read the carrier on the survey; take the rating fitted from the network operator where it matters.

flag-fuse-wire-board-name = Fuse-wire board
flag-fuse-wire-board-why = No device for a charge point is to be had for such a board, and its condition wants an opinion.
flag-fuse-wire-board-do = Look and give an opinion; it is not condemned from a photo. Plan an enclosure of its own, or quote a new board beside.

flag-generation-without-letter-name = Generation without a letter
flag-generation-without-letter-why = Above 16 A a phase it is asked for first; without acceptance it has to be cleared up before more is added.
flag-generation-without-letter-do = Ask for the letter or the inverter’s plate; if there is none, raise it with the network operator along with the charge point.

flag-half-hour-implausible-name = Half-hour figure implausible
flag-half-hour-implausible-why = It is perhaps a day’s total; it counts as far as the devices could draw it.
flag-half-hour-implausible-do = Ask where the figure was read, and what else the home has.

flag-hazard-long-ago-name = Something alarming, long ago
flag-hazard-long-ago-why = What passed may come back; it kept nobody away from meter and board.
flag-hazard-long-ago-do = Ask what it was, where, and who put it right; look there on the survey.

flag-hazard-not-sure-name = Danger not ruled out
flag-hazard-not-sure-why = Nobody was sent near meter or board, so all that is asked there stays open.
flag-hazard-not-sure-do = Ring them and go through the signs; then send the questions for meter and board again.

flag-hazard-seen-name = Hazard noticed
flag-hazard-seen-why = It may be dangerous now. Nothing is planned before it is made safe.
flag-hazard-seen-do = Ring them. See that the fire service, the gas emergency service, the network operator, the supplier or an electrician has been called, as sign and place require.

flag-high-work-name = Work above about 3 m
flag-high-work-why = It needs a ladder or tower, often a second person, and more hours.
flag-high-work-do = Look for a lower way; bring the right access and price it.

flag-landlord-name = Landlord or freeholder
flag-landlord-why = The owner agrees in writing first; a grant may rest on it too.
flag-landlord-do = Ask for the agreement in writing, with the route named, before a date, and whether a grant is applied for: it is approved before the work begins and paid after.

flag-larger-cable-name = Cable above the plain size
flag-larger-cable-why = A long run drops too much voltage in the plain size, and insulation keeps the heat in.
flag-larger-cable-do = Measure the route and see the insulation; check that the charge point’s terminals take the size.

flag-lead-too-short-name = No lead long enough
flag-lead-too-short-why = The lead must reach the inlet however the car stands, without crossing a footway.
flag-lead-too-short-do = Measure from the spot to the inlet both ways round; offer another spot or a socket.

flag-length-beyond-use-name = Length beyond use
flag-length-beyond-use-why = It is probably a slip of a digit or of the unit; priced by it, the job would be another one.
flag-length-beyond-use-do = Ask for that length again; nothing is priced until it is put right.

flag-listed-name = Listed building
flag-listed-why = Consent comes before anything is fixed to it or dug in its grounds.
flag-listed-do = Ask them to speak with the planning authority; propose a route and place that show least.

flag-load-limit-designed-name = Load limit is part of the design
flag-load-limit-designed-why = With the limit the demand stays under what may be told afterwards; without it the network operator is asked first.
flag-load-limit-designed-do = Price the load sensing and its cable to the tails; see that it fails safe when its clamp is lost; record the setting on the form and the certificate.

flag-looped-supply-name = Looped supply
flag-looped-supply-why = Then both homes hang on one service cable. The network operator decides first and may separate them.
flag-looped-supply-do = Ask the network operator before booking and send the photo of the service head.

flag-main-switch-not-read-name = Main switch to be read
flag-main-switch-not-read-why = Older boards have a main switch of 60 or 63 A, which the added load would overload unseen.
flag-main-switch-not-read-do = Read the main switch and the feed in the board’s photo, or ask for one; else feed the charge point beside it.

flag-night-heating-name = Storage heaters at night
flag-night-heating-why = Heaters and car charge in the same cheap hours, so their demands add up; off-peak wiring often has tails and a board of its own.
flag-night-heating-do = See how the heaters are switched and fed; hold the charge point back or move its hours.

flag-no-loop-seen-name = No loop seen, one still possible
flag-no-loop-seen-why = The house at the end of a loop shows one street cable and two conductors too.
flag-no-loop-seen-do = Look for it on the survey; in a terrace or semi ask the network operator what its record says.

flag-no-size-passes-name = No cable size passes
flag-no-size-passes-why = Without another place, a lower current or a feed of its own there is no design.
flag-no-size-passes-do = Check the distance with them first; then look for another spot, or plan a lower charge current.

flag-no-surge-device-name = No surge protection
flag-no-surge-device-why = One is fitted unless the owner declines it and accepts the risk.
flag-no-surge-device-do = Offer one with the work; record it if the owner declines.

flag-no-wall-space-name = No wall space beside the board
flag-no-wall-space-why = The board itself is replaced, unless a place is found for the enclosure.
flag-no-wall-space-do = Look for a place on the photo or the survey; where there is one, no new board is wanted.

flag-northern-ireland-name = Northern Ireland
flag-northern-ireland-why = Other law and another network apply there; the rules used here are those of Great Britain.
flag-northern-ireland-do = Point them to somebody registered there; nothing here is to be relied on for it.

flag-outbuilding-board-name = Board in an outbuilding
flag-outbuilding-board-why = A small feed cannot carry a charge point, and an outbuilding may want an electrode of its own.
flag-outbuilding-board-do = Check size, length and protection of its feed before that board is used; else run from the home.

flag-outside-area-name = Outside the area
flag-outside-area-why = It is outside what the settings cover, so no band is shown.
flag-outside-area-do = Decide whether you go there; tell them either way.

flag-outside-meter-box-name = Outside meter box
flag-outside-meter-box-why = Nothing of the installer’s goes into an outside meter box; the tails are split indoors.
flag-outside-meter-box-do = Plan the split where the tails come in; see what length that leaves.

flag-overhead-line-name = Overhead line near the route
flag-overhead-line-why = Ladders, masts and long cables stay well away from it; the distance to keep is the network operator’s to say.
flag-overhead-line-do = Look from the ground; ask the network operator before a date where work near it cannot be avoided.

flag-planned-load-name = More load planned
flag-planned-load-why = What is added later draws on the same fuse; a demand worked out now may not hold.
flag-planned-load-do = Ask what and when; leave room for it, or agree a limit with it in mind.

flag-pme-outdoors-name = PME outdoors
flag-pme-outdoors-why = With a broken combined conductor the car’s metal could become live; PME is not used outdoors without a measure against that.
flag-pme-outdoors-do = Use a charge point or device that senses an open PEN, or an electrode of its own with its clearances.

flag-second-charge-point-name = A second charge point
flag-second-charge-point-why = Both count at full current unless they share a limit; the network operator is asked first.
flag-second-charge-point-do = Ask what it is and what feeds it; see whether the two can share one limit.

flag-several-boards-name = Several boards
flag-several-boards-why = The tails may be split already, which four conductors at the service head can mean too; which board has room is open.
flag-several-boards-do = Ask for a photo of each; see what each feeds and how the tails divide.

flag-shared-car-park-name = Shared car park
flag-shared-car-park-why = Whoever manages it agrees first; the feed may be a landlord’s, and fire-stopping and the distance to the meter come in.
flag-shared-car-park-do = Ask who manages it, whose supply feeds the bay, and what they allow, before a date.

flag-shared-ground-name = Shared or other ground
flag-shared-ground-why = Who shares or owns it agrees first, and to the digging too.
flag-shared-ground-do = Ask for their agreement in writing, with the route named, or find a way over their own ground.

flag-shared-residual-device-name = Spare ways behind a shared residual-current device
flag-shared-residual-device-why = A way behind a shared device is not individual protection by the stricter reading, which is taken here; the point is disputed.
flag-shared-residual-device-do = Plan an enclosure of its own; see in the photo whether a way is free ahead of the shared device.

flag-split-phase-name = Two carriers: split-phase or other
flag-split-phase-why = Neither phases nor rating can be told from the count; the design for one phase may not hold.
flag-split-phase-do = Look at the photo; ask the network operator what the supply is before agreeing a date.

flag-street-parking-name = Street parking
flag-street-parking-why = A lead trailed across a public footway is refused; an authorised channel is the highway authority’s to grant.
flag-street-parking-do = Tell them so kindly; where their authority grants channels, name that and any grant.

flag-supplier-must-isolate-name = Supplier must isolate
flag-supplier-must-isolate-why = Splitting the tails waits for a visit of the supplier or network operator.
flag-supplier-must-isolate-do = Ask the supplier for an isolation or a switch after the meter; agree the date around that visit.

flag-supply-counts-disagree-name = Supply counts disagree
flag-supply-counts-disagree-why = Phases, loop and network process all rest on these counts; neither is asserted.
flag-supply-counts-disagree-do = Look at the photo, or ask for another; settle the counts before anything is designed or priced.

flag-supply-not-counted-name = Supply not counted
flag-supply-not-counted-why = Phases, loop and service equipment are unknown; a look of yours settles it, or the network operator.
flag-supply-not-counted-do = Look on the survey before a date is agreed; ask for a photo only where a danger is ruled out.

flag-tails-long-name = Long meter tails
flag-tails-long-why = Tails over about 3 m want a switch-fuse near the meter; nothing of the installer’s goes into an outside meter box.
flag-tails-long-do = Look whether there is a switch-fuse; quote one if not, and find a place for it.

flag-three-phase-name = Three-phase supply
flag-three-phase-why = A voltage window does not count as open-PEN protection on a three-phase installation; the load lies unevenly on the phases.
flag-three-phase-do = Take an open-PEN measure that suits three phases; put the charge point on the emptiest phase, or fit a three-phase one.

flag-tn-s-may-be-pme-name = TN-S may be PME
flag-tn-s-may-be-pme-why = Networks repair separate-earth cables with combined ones: TN-S is treated as PME until confirmed.
flag-tn-s-may-be-pme-do = Plan the open-PEN measure all the same; ask the network operator if it would be left out.

flag-tt-electrode-name = Electrode to be proved
flag-tt-electrode-why = Protection rests on the electrode and the residual-current device; an electrode can dry out or corrode.
flag-tt-electrode-do = Measure the electrode and prove the residual-current device; no open-PEN device is needed. An outbuilding may want its own.

flag-type-ac-upstream-name = Type AC upstream
flag-type-ac-upstream-why = A direct current from the car’s side may blind a Type AC device, and with it all that it protects.
flag-type-ac-upstream-do = Feed the charge point from ahead of it, or change the device; none of Type AC stays upstream.

flag-weak-signal-name = Weak signal at the spot
flag-weak-signal-why = Load sensing, off-peak charging and updates want a link that holds.
flag-weak-signal-do = Run a data cable beside the power cable, by way of a box by the board, all the way to the router; count it. Mobile data in its place only where charge point and spot have it.
flag-old-point-replaced-name = Old charge point replaced
flag-old-point-replaced-why = On a sound circuit it is a short job. A cable of 2.5 or 4 mm², a Type AC or single-pole device, an old earth rod, or a clamp and data cable that do not fit make it a new one and a removal.
flag-old-point-replaced-do = Ask for photos of its label, its device and the certificate. On site: dead tests and loop, breaker, cable size, device, earthing, clamp and data cable, reach of the lead.
flag-operator-dates-disagree-name = The network operator’s answer is older than the question
flag-operator-dates-disagree-why = One of the two days is wrong, or the answer is to something else that was asked earlier.
flag-operator-dates-disagree-do = Read both days off the letters, correct the one that is wrong, and see that the answer is to this job.
flag-operator-refused-name = The network operator has refused
flag-operator-refused-why = Without the operator’s consent nothing is connected.
flag-operator-refused-do = Ask what would be accepted (a limit, another service); work it out again and ask again.
flag-operators-limit-name = The network operator set a limit
flag-operators-limit-why = The home must be held at that limit; what can’t be held there is asked about again.
flag-operators-limit-do = Set the limit, measure it under load, and write the setting on the certificate.
flag-direct-current-not-sensed-name = Type B device until the papers say otherwise
flag-direct-current-not-sensed-why = Then a Type A device upstream may be blinded: a Type B one is needed, which costs far more.
flag-direct-current-not-sensed-do = Read the charge point’s papers; price a Type B device until they say that it senses direct current.
flag-surge-device-finds-no-gap-name = One gap, two devices
flag-surge-device-finds-no-gap-why = The charge point’s own device takes that gap: surge protection would claim it as well.
flag-surge-device-finds-no-gap-do = Price surge protection in a small enclosure beside the board, or free another way; record it if the owner declines.
flag-near-gas-meter-name = Close to the gas meter
flag-near-gas-meter-why = Electrical equipment keeps clear of a gas meter and its pipes, and nothing is drilled beside them.
flag-near-gas-meter-do = Measure; move the spot, or fit a barrier only where the gas standard allows; drill away from gas and water.
flag-lead-reaches-one-way-name = Lead reaches one way only
flag-lead-reaches-one-way-why = The lead must reach the inlet whichever way the car stands, without pulling.
flag-lead-reaches-one-way-do = Offer another spot, a longer lead or a socket; say plainly which way the car must stand otherwise.
flag-farm-building-name = Farm building
flag-farm-building-why = Where animals are kept, wiring and bonding have rules of their own; the farmhouse’s own rooms are not meant.
flag-farm-building-do = Look before a date: section 705 for bonding, 300 mA protection against fire and what animals reach.
flag-outbuilding-electrode-name = Outbuilding on TT
flag-outbuilding-electrode-why = On TT the cable to an outbuilding needs a residual-current device at its origin, and the outbuilding perhaps an electrode of its own.
flag-outbuilding-electrode-do = Test the electrode and the device ahead of the feed before that board is used.
flag-supports-in-a-fire-name = Supports that hold in a fire
flag-supports-in-a-fire-why = All wiring is held so that it does not fall early in a fire.
flag-supports-in-a-fire-do = Metal clips or ties along it; plastic trunking alone does not hold.
flag-signal-marginal-name = Signal between good and weak
flag-signal-marginal-why = A link that holds today may fail with the door closed or the car in front.
flag-signal-marginal-do = Measure at the spot with the door closed; leave room for a data cable beside the power cable.
flag-thick-wall-name = Thick wall to drill
flag-thick-wall-why = Old stone or rubble walls take longer drills, more time, and may crumble.
flag-thick-wall-do = Bring a long bit and something to sleeve the hole; look for another way out.
flag-half-hour-hides-load-name = Half-hour hides load
flag-half-hour-hides-load-why = What the home makes itself never passed the meter: the true peak may be higher.
flag-half-hour-hides-load-do = Take it as a lower bound; ask for a half-hour of a dark winter evening.
flag-power-both-ways-name = Car is to power the home
flag-power-both-ways-why = It generates beside the supply: the network operator accepts it first, charge point and car must both be made for it, and its devices let power through both ways.
flag-power-both-ways-do = Ask which car and charge point they have in mind; apply to the network operator for it; take bidirectional devices.

flag-report-to-photograph-name = Report to photograph
flag-report-to-photograph-why = It holds the external impedance, the earthing arrangement and what was found, measured by somebody.
flag-report-to-photograph-do = Ask for photos of its first pages before the survey; check its date.
flag-fire-stopping-name = Fire-stopping where it is drilled
flag-fire-stopping-why = A wall or floor between homes, stairs and car park holds a fire back; a hole in it has to be sealed as it was, and the building’s fire strategy says where charging may stand at all.
flag-fire-stopping-do = Ask whoever manages the building for its fire strategy: which walls those are, what it says of charge points, and whose seals they accept; price the sealing.
flag-off-peak-not-steered-name = The off-peak scheme may not steer this charge point
flag-off-peak-not-steered-why = A scheme that can’t steer it sells no cheap hours, and whether it can changes with the supplier’s list.
flag-off-peak-not-steered-do = Look up today whether the scheme steers it; offer another one of the list, or a plain timer.

flag-higher-risk-building-name = Tall building, perhaps
flag-higher-risk-building-why = From seven storeys or 18 m on, the building safety regulator comes before any wall between flats is drilled.
flag-higher-risk-building-do = Ask whoever manages the building for its height; where it is that high, plan no drilling before the regulator’s approval.

flag-scottish-flat-name = Flat in Scotland
flag-scottish-flat-why = There is no freeholder there: the owners of the building share its walls, stairs and ground, and a factor may act for them.
flag-scottish-flat-do = Ask who the factor is, or for the co-owners’ agreement in writing; ask the council whether a building warrant is wanted.

flag-scottish-planning-name = Scotland’s planning limits
flag-scottish-planning-why = No application is needed up to 0.5 m³, not facing onto a road within 2 m of it, and on a post up to 1.6 m high.
flag-scottish-planning-do = Keep place and size within that, or have them ask the council; it is taken away and made good when no longer needed.
flag-which-board-name = Which board is not known
flag-which-board-why = Room, devices and feed of the board that the charge point hangs on decide the work; those of another say nothing of it.
flag-which-board-do = Look at each board, or ask for photos of them; choose one, and record what it has.
