# Flags. `flag-CODE` is what the homeowner is told: plain words, no blame, nothing to do at the equipment. `if-CODE` is the condition on
# which a job holds, "Straightforward, if …". `-name`, `-why` and `-do` are for the installer: a short name, why it matters, what to do.

flag-asbestos-when-drilling = Homes of this age can have asbestos in some panels. The installer checks before drilling.
flag-asbestos-when-drilling-name = Asbestos when drilling
flag-asbestos-when-drilling-why = Soffits, panels, boxing and garage roofs of that age may hold asbestos.
flag-asbestos-when-drilling-do = See what is drilled through before drilling; keep to brick and timber, or have the panel tested.

flag-backing-board-suspect = The board behind your meter is of a kind that the installer looks at first. Until then it is left alone.
if-backing-board-suspect = the board behind the meter turns out to be harmless
flag-backing-board-suspect-name = Suspect backing board
flag-backing-board-suspect-why = Such boards may hold asbestos; they are not drilled or disturbed before somebody has looked.
flag-backing-board-suspect-do = Look and give an opinion; have it tested where work there is planned, or mount elsewhere. It is not condemned from a photo.

flag-battery-beside = You have a battery. The installer sets it so that it does not empty into the car.
flag-battery-beside-name = Battery beside the charge point
flag-battery-beside-why = Left to itself it empties into the car at night, and while it charges it is a load of its own.
flag-battery-beside-do = Put its sensor where it does not see the car, or set it to rest while the car charges; count its charging.

flag-board-full = Your fuse board has no room left. A small box of its own beside it is the usual answer.
flag-board-full-name = Board is full
flag-board-full-why = The charge point wants an enclosure of its own, or a way must be freed.
flag-board-full-do = Plan an enclosure fed by splitting the tails; look at the photo for a way that can be freed.

flag-board-seen-disagrees = Two of the things seen at the fuse board do not fit together. The installer goes through them again with you.
if-board-seen-disagrees = what was seen of the fuse board is cleared up
flag-board-seen-disagrees-name = What was seen of the board disagrees
flag-board-seen-disagrees-why = Whether the board can be used at all rests on what protects its circuits.
flag-board-seen-disagrees-do = Look at the photo of the board and correct the answer that is wrong.

flag-bonding-not-seen = A safety wire to the gas or water pipe was not seen. It may be there out of sight; if not, one is usually added.
flag-bonding-not-seen-name = Bonding not seen
flag-bonding-not-seen-why = Main bonding is in place before a charge point is added. A clamp not seen is not bonding absent.
flag-bonding-not-seen-do = Look for the clamp on the survey; quote the bonding as an extra, and plan its route to the earth bar.

flag-bought-already = You already have a charge point. Its papers tell the installer whether it can be fitted here. Without them, fixing it is not in the price.
if-bought-already = the papers of your charge point show that it can be fitted here
flag-bought-already-name = Charge point bought already
flag-bought-already-why = It is judged by its product standard and the maker’s instructions; without papers it is not priced for fixing.
flag-bought-already-do = Ask for photos of its papers and plate; say before a date whether you will fix it. Its seller answers for it; one that you supply instead you sell.

flag-builders-cable = A builder may have left a cable for this. The installer checks whether it can be used.
flag-builders-cable-name = Builder’s cable
flag-builders-cable-why = It is of use only if its size, route and both ends can be proved.
flag-builders-cable-do = Ask for photos of both ends and any certificate; test it before relying on it.

flag-buried-services = Pipes or cables may lie in the ground on the way. The installer finds them before digging.
flag-buried-services-name = Buried services
flag-buried-services-why = A spade into a gas pipe or supply cable is dangerous; an electrode wants its distance from buried metal too.
flag-buried-services-do = Ask for the service drawings, scan before digging, dig by hand near what is known.

flag-cable-on-a-fence = Part of the cable would run on a fence. A fence may be a neighbour’s, and seldom lasts as long as the cable; the installer looks for a better way.
if-cable-on-a-fence = the fence is yours and sound, or another way is found
flag-cable-on-a-fence-name = Cable on a fence
flag-cable-on-a-fence-why = A fence is often the neighbour’s, and seldom lasts as long as a cable: it moves, rots and is renewed.
flag-cable-on-a-fence-do = Ask whose fence it is and how sound; look for a wall or the ground, else put posts of its own.

flag-carrier-rating-is-a-bound = The number on the sealed fuse box is the most it may hold. The fuse inside can be smaller.
flag-carrier-rating-is-a-bound-name = Carrier rating is an upper bound
flag-carrier-rating-is-a-bound-why = A carrier marked for a large fuse often holds a smaller one.
flag-carrier-rating-is-a-bound-do = Take the rating as an upper bound; have the fuse itself confirmed before relying on the headroom.

flag-communal-meter = Your meter is in a shared place. Whoever looks after the building has to let the installer in.
if-communal-meter = whoever looks after the building lets the installer in
flag-communal-meter-name = Communal meter
flag-communal-meter-why = Getting in, and working there, is for whoever manages the building to allow; the route crosses shared parts.
flag-communal-meter-do = Ask who holds the key and who manages the building, before a date.

flag-conservation-area = Your home is in a conservation area. Sometimes the council wants to be asked.
flag-conservation-area-name = Conservation area
flag-conservation-area-why = Consent is seldom wanted for a charge point, but a local direction may ask for it.
flag-conservation-area-do = Have them ask the planning authority whether a local direction applies.

flag-demand-over-limit = Your home could use a lot of power at once. So the network operator may have to be asked first.
if-demand-over-limit = the network operator agrees
flag-demand-over-limit-name = Demand over the limit
flag-demand-over-limit-why = The network operator is asked first; over the main fuse it is an upgrade, and perhaps tails or meter with it.
flag-demand-over-limit-do = Go through the loads with them; apply with the limit and its setting where there is one.

flag-device-to-confirm = There is room in your fuse board. Whether the right part is made for it is looked up.
flag-device-to-confirm-name = Device for the board to be confirmed
flag-device-to-confirm-why = The way is only of use with a double-pole 30 mA device of the kind and maker that the board takes.
flag-device-to-confirm-do = Read the maker from the photo and look the device up; otherwise an enclosure of its own.

flag-digging = Part of the cable may have to go under the ground. Digging takes more time than fixing a cable to a wall.
flag-digging-name = Digging
flag-digging-why = A trench takes many times the hours of a cable on a wall; whose ground it is and what lies there must be known.
flag-digging-do = Walk the route; price the trench and what is put back by the metre.

flag-direct-current-not-sensed = Your charge point may need a special safety switch, which costs more. Its papers tell.
flag-direct-current-not-sensed-name = Type B device until the papers say otherwise
flag-direct-current-not-sensed-why = Then a Type A device upstream may be blinded: a Type B one is needed, which costs far more.
flag-direct-current-not-sensed-do = Read the charge point’s papers; price a Type B device until they say that it senses direct current.

flag-earthing-unknown = How your home is earthed is not known yet. The installer measures it.
flag-earthing-unknown-name = Earthing unknown
flag-earthing-unknown-why = The open-PEN measure is decided as for PME, whatever is likeliest, and is in the price; the fault loop is taken at the highest external impedance still possible.
flag-earthing-unknown-do = Look where the earthing conductor goes; measure the external impedance before energising.

flag-farm-building = Wiring in a farm building has rules of its own. The installer looks at it first.
if-farm-building = the wiring of the farm building allows it
flag-farm-building-name = Farm building
flag-farm-building-why = Where animals are kept, wiring and bonding have rules of their own; the farmhouse’s own rooms are not meant.
flag-farm-building-do = Look before a date: section 705 for bonding, 300 mA protection against fire and what animals reach.

flag-fire-stopping = Holes through walls between homes are sealed again against fire. Whoever manages the building has a plan for fires (its fire strategy); please ask what it says of charging cars.
flag-fire-stopping-name = Fire-stopping where it is drilled
flag-fire-stopping-why = A wall or floor between homes, stairs and car park holds a fire back; a hole in it has to be sealed as it was, and the building’s fire strategy says where charging may stand at all.
flag-fire-stopping-do = Ask whoever manages the building for its fire strategy: which walls those are, what it says of charge points, and whose seals they accept; price the sealing.

flag-footway-crossing = The way to your car crosses a public pavement. The council has to agree first.
flag-footway-crossing-name = Route crosses a footway
flag-footway-crossing-why = Nothing may be laid across or under a footway without the highway authority.
flag-footway-crossing-do = Look for a way round on their own ground; otherwise nothing is planned before the authority has answered. Name any grant for a channel.

flag-fuse-rating-not-read = The size of your main fuse is not known yet, so a usual one is assumed.
flag-fuse-rating-not-read-name = Main fuse not read
flag-fuse-rating-not-read-why = The main fuse is assumed from the age of the home until somebody has read it.
flag-fuse-rating-not-read-do = Read the carrier on the survey; take the rating fitted from the network operator where it matters.

flag-fuse-wire-board = Your fuse board is of an older kind. The installer looks at it and gives an opinion.
if-fuse-wire-board = the older fuse board turns out to be in good order
flag-fuse-wire-board-name = Fuse-wire board
flag-fuse-wire-board-why = No device for a charge point is to be had for such a board, and its condition wants an opinion.
flag-fuse-wire-board-do = Look and give an opinion; it is not condemned from a photo. Plan an enclosure of its own, or quote a new board beside.

flag-generation-without-letter = For solar panels or a battery of this size there is usually a letter from the network operator. The installer asks about it.
if-generation-without-letter = the network operator knows of your panels or battery
flag-generation-without-letter-name = Generation without a letter
flag-generation-without-letter-why = Above 16 A a phase it is asked for first; without acceptance it has to be cleared up before more is added.
flag-generation-without-letter-do = Ask for the letter or the inverter’s plate; if there is none, raise it with the network operator along with the charge point.

flag-half-hour-hides-load = Your solar power or battery hides part of what you use. The installer allows for it.
flag-half-hour-hides-load-name = Half-hour hides load
flag-half-hour-hides-load-why = What the home makes itself never passed the meter: the true peak may be higher.
flag-half-hour-hides-load-do = Take it as a lower bound; ask for a half-hour of a dark winter evening.

flag-half-hour-implausible = The half-hour figure looks more like a whole day. It was not used in full.
if-half-hour-implausible = the half-hour figure you gave is cleared up
flag-half-hour-implausible-name = Half-hour figure implausible
flag-half-hour-implausible-why = It is perhaps a day’s total; it counts as far as the devices could draw it.
flag-half-hour-implausible-do = Ask where the figure was read, and what else the home has.

flag-hazard-long-ago = You noticed something once, long ago. The installer looks there with fresh eyes.
flag-hazard-long-ago-name = Something alarming, long ago
flag-hazard-long-ago-why = What passed may come back; it kept nobody away from meter and board.
flag-hazard-long-ago-do = Ask what it was, where, and who put it right; look there on the survey.

flag-hazard-not-sure = Whether something is dangerous is not settled yet, so the questions about the meter and the fuse board can wait.
if-hazard-not-sure = nothing dangerous is found
flag-hazard-not-sure-name = Danger not ruled out
flag-hazard-not-sure-why = Nobody was sent near meter or board, so all that is asked there stays open.
flag-hazard-not-sure-do = Ring them and go through the signs; then send the questions for meter and board again.

flag-hazard-seen = You noticed something that may be dangerous. That comes before anything else.
flag-hazard-seen-name = Hazard noticed
flag-hazard-seen-why = It may be dangerous now. Nothing is planned before it is made safe.
flag-hazard-seen-do = Ring them. See that the fire service, the gas emergency service, the network operator, the supplier or an electrician has been called, as sign and place require.

flag-high-work = Part of the way is high up, so the installer brings what is needed to reach it.
flag-high-work-name = Work above about 3 m
flag-high-work-why = It needs a ladder or tower, often a second person, and more hours.
flag-high-work-do = Look for a lower way; bring the right access and price it.

flag-higher-risk-building = If the building is very tall, a safety regulator comes before any drilling between flats. The installer asks.
flag-higher-risk-building-name = Tall building, perhaps
flag-higher-risk-building-why = From seven storeys or 18 m on, the building safety regulator comes before any wall between flats is drilled.
flag-higher-risk-building-do = Ask whoever manages the building for its height; where it is that high, plan no drilling before the regulator’s approval.

flag-landlord = Whoever owns the building has to agree first, in writing.
if-landlord = whoever owns the building agrees
flag-landlord-name = Landlord or freeholder
flag-landlord-why = The owner agrees in writing first; a grant may rest on it too.
flag-landlord-do = Ask for the agreement in writing, with the route named, before a date, and whether a grant is applied for: it is approved before the work begins and paid after.

flag-larger-cable = The way is long, or warm for a cable, so a thicker cable is likely.
flag-larger-cable-name = Cable above the plain size
flag-larger-cable-why = A long run drops too much voltage in the plain size, and insulation keeps the heat in.
flag-larger-cable-do = Measure the route and see the insulation; check that the charge point’s terminals take the size.

flag-lead-reaches-one-way = The lead may only reach if you park one way round. The installer looks at it with you.
if-lead-reaches-one-way = the lead reaches the car as you park it
flag-lead-reaches-one-way-name = Lead reaches one way only
flag-lead-reaches-one-way-why = The lead must reach the inlet whichever way the car stands, without pulling.
flag-lead-reaches-one-way-do = Offer another spot, a longer lead or a socket; say plainly which way the car must stand otherwise.

flag-lead-too-short = None of the leads on offer is as long as you would like. The installer looks at the spot with you.
flag-lead-too-short-name = No lead long enough
flag-lead-too-short-why = The lead must reach the inlet however the car stands, without crossing a footway.
flag-lead-too-short-do = Measure from the spot to the inlet both ways round; offer another spot or a socket.

flag-length-beyond-use = One length you gave is longer than we ever meet. Please look at it again.
if-length-beyond-use = the lengths you gave are right
flag-length-beyond-use-name = Length beyond use
flag-length-beyond-use-why = It is probably a slip of a digit or of the unit; priced by it, the job would be another one.
flag-length-beyond-use-do = Ask for that length again; nothing is priced until it is put right.

flag-listed = Your home is listed. The council has to agree before anything is fixed to it.
if-listed = the council agrees
flag-listed-name = Listed building
flag-listed-why = Consent comes before anything is fixed to it or dug in its grounds.
flag-listed-do = Ask them to speak with the planning authority; propose a route and place that show least.

flag-load-limit-designed = The charge point would slow down by itself while your home is busy, to stay within what your main fuse can carry.
flag-load-limit-designed-name = Load limit is part of the design
flag-load-limit-designed-why = With the limit the demand stays under what may be told afterwards; without it the network operator is asked first.
flag-load-limit-designed-do = Price the load sensing and its cable to the tails; see that it fails safe when its clamp is lost; record the setting on the form and the certificate.

flag-looped-supply = The cable from the street may be shared with a neighbour. The network operator has to be asked first.
if-looped-supply = the cable from the street turns out to be yours alone
flag-looped-supply-name = Looped supply
flag-looped-supply-why = Then both homes hang on one service cable. The network operator decides first and may separate them.
flag-looped-supply-do = Ask the network operator before booking and send the photo of the service head.

flag-main-switch-not-read = The main switch of your fuse board has to carry the charge point too. The installer looks at it.
if-main-switch-not-read = the fuse board’s main switch is large enough
flag-main-switch-not-read-name = Main switch to be read
flag-main-switch-not-read-why = Older boards have a main switch of 60 or 63 A, which the added load would overload unseen.
flag-main-switch-not-read-do = Read the main switch and the feed in the board’s photo, or ask for one; else feed the charge point beside it.

flag-near-gas-meter = The charge point would hang close to the gas meter. The installer may move it a little.
if-near-gas-meter = there is a place far enough from the gas meter
flag-near-gas-meter-name = Close to the gas meter
flag-near-gas-meter-why = Electrical equipment keeps clear of a gas meter and its pipes, and nothing is drilled beside them.
flag-near-gas-meter-do = Measure; move the spot, or fit a barrier only where the gas standard allows; drill away from gas and water.

flag-night-heating = Your heaters take power at night, when a car usually charges too. The plan allows for both.
flag-night-heating-name = Storage heaters at night
flag-night-heating-why = Heaters and car charge in the same cheap hours, so their demands add up; off-peak wiring often has tails and a board of its own.
flag-night-heating-do = See how the heaters are switched and fed; hold the charge point back or move its hours.

flag-no-loop-seen = Nothing shows that your street cable is shared with a neighbour. Sometimes that cannot be seen from inside a home, so it is checked.
flag-no-loop-seen-name = No loop seen, one still possible
flag-no-loop-seen-why = The house at the end of a loop shows one street cable and two conductors too.
flag-no-loop-seen-do = Look for it on the survey; in a terrace or semi ask the network operator what its record says.

flag-no-size-passes = The car stands a long way from the fuse board. The installer looks for another way to do it.
if-no-size-passes = a shorter way is found for the cable
flag-no-size-passes-name = No cable size passes
flag-no-size-passes-why = Without another place, a lower current or a feed of its own there is no design.
flag-no-size-passes-do = Check the distance with them first; then look for another spot, or plan a lower charge current.

flag-no-surge-device = Your fuse board seems to have no protection against surges, such as from lightning. As a rule one is offered; you may decline it.
flag-no-surge-device-name = No surge protection
flag-no-surge-device-why = One is fitted unless the owner declines it and accepts the risk.
flag-no-surge-device-do = Offer one with the work; record it if the owner declines.

flag-no-wall-space = There is no room beside your fuse board for a small box, so the board itself may have to be replaced.
flag-no-wall-space-name = No wall space beside the board
flag-no-wall-space-why = The board itself is replaced, unless a place is found for the enclosure.
flag-no-wall-space-do = Look for a place on the photo or the survey; where there is one, no new board is wanted.

flag-northern-ireland = In Northern Ireland other rules apply, which this page does not know.
flag-northern-ireland-name = Northern Ireland
flag-northern-ireland-why = Other law and another network apply there; the rules used here are those of Great Britain.
flag-northern-ireland-do = Point them to somebody registered there; nothing here is to be relied on for it.

flag-off-peak-not-steered = Your supplier has to start the charge point at the night rate. The installer checks which one allows that.
flag-off-peak-not-steered-name = The off-peak scheme may not steer this charge point
flag-off-peak-not-steered-why = A scheme that can’t steer it sells no cheap hours, and whether it can changes with the supplier’s list.
flag-off-peak-not-steered-do = Look up today whether the scheme steers it; offer another one of the list, or a plain timer.

flag-old-point-replaced = What the old charge point hangs on may do for the new one, once the installer has tested it.
flag-old-point-replaced-name = Old charge point replaced
flag-old-point-replaced-why = On a sound circuit it is a short job. A cable of 2.5 or 4 mm², a Type AC or single-pole device, an old earth rod, or a clamp and data cable that do not fit make it a new one and a removal.
flag-old-point-replaced-do = Ask for photos of its label, its device and the certificate. On site: dead tests and loop, breaker, cable size, device, earthing, clamp and data cable, reach of the lead.

flag-operator-dates-disagree = The installer checks on which day the network operator answered.
if-operator-dates-disagree = the network operator’s answer is about this job
flag-operator-dates-disagree-name = The network operator’s answer is older than the question
flag-operator-dates-disagree-why = One of the two days is wrong, or the answer is to something else that was asked earlier.
flag-operator-dates-disagree-do = Read both days off the letters, correct the one that is wrong, and see that the answer is to this job.

flag-operator-refused = The network operator has said no to this so far. The installer asks what they would accept.
flag-operator-refused-name = The network operator has refused
flag-operator-refused-why = Without the operator’s consent nothing is connected.
flag-operator-refused-do = Ask what would be accepted (a limit, another service); work it out again and ask again.

flag-operators-limit = The network operator has agreed, with a limit on how much the home may draw at once. The installer sets that.
flag-operators-limit-name = The network operator set a limit
flag-operators-limit-why = The home must be held at that limit; what can’t be held there is asked about again.
flag-operators-limit-do = Set the limit, measure it under load, and write the setting on the certificate.

flag-outbuilding-board = A garage’s fuse board often has a thin cable. The installer checks it before planning with it.
if-outbuilding-board = the cable to the outbuilding is thick enough
flag-outbuilding-board-name = Board in an outbuilding
flag-outbuilding-board-why = A small feed cannot carry a charge point, and an outbuilding may want an electrode of its own.
flag-outbuilding-board-do = Check size, length and protection of its feed before that board is used; else run from the home.

flag-outbuilding-electrode = The outbuilding may need an earth rod of its own. The installer tests it.
if-outbuilding-electrode = the earthing of the outbuilding turns out to be good
flag-outbuilding-electrode-name = Outbuilding on TT
flag-outbuilding-electrode-why = On TT the cable to an outbuilding needs a residual-current device at its origin, and the outbuilding perhaps an electrode of its own.
flag-outbuilding-electrode-do = Test the electrode and the device ahead of the feed before that board is used.

flag-outside-area = This home is outside the area that this installer covers.
flag-outside-area-name = Outside the area
flag-outside-area-why = It is outside what the settings cover, so no band is shown.
flag-outside-area-do = Decide whether you go there; tell them either way.

flag-outside-meter-box = Most of what is in your meter box outside belongs to the network operator and the supplier. The new parts go indoors.
flag-outside-meter-box-name = Outside meter box
flag-outside-meter-box-why = Nothing of the installer’s goes into an outside meter box; the tails are split indoors.
flag-outside-meter-box-do = Plan the split where the tails come in; see what length that leaves.

flag-overhead-line = There are wires overhead near the way. The installer plans the work to stay well clear of them.
if-overhead-line = the wires overhead are far enough away
flag-overhead-line-name = Overhead line near the route
flag-overhead-line-why = Ladders, masts and long cables stay well away from it; the distance to keep is the network operator’s to say.
flag-overhead-line-do = Look from the ground; ask the network operator before a date where work near it cannot be avoided.

flag-planned-load = You plan something else that uses power. The installer keeps it in mind.
flag-planned-load-name = More load planned
flag-planned-load-why = What is added later draws on the same fuse; a demand worked out now may not hold.
flag-planned-load-do = Ask what and when; leave room for it, or agree a limit with it in mind.

flag-pme-outdoors = Your supply is of a common kind that needs extra protection for a car outdoors. It is part of the plan.
flag-pme-outdoors-name = PME outdoors
flag-pme-outdoors-why = With a broken combined conductor the car’s metal could become live; PME is not used outdoors without a measure against that.
flag-pme-outdoors-do = Use a charge point or device that senses an open PEN, or an electrode of its own with its clearances.

flag-power-both-ways = You would like the car to power the home. Car and charge point must both be made for it, and the network operator agrees first. The price here is with an ordinary one.
if-power-both-ways = the network operator agrees that the car powers the home
flag-power-both-ways-name = Car is to power the home
flag-power-both-ways-why = It generates beside the supply: the network operator accepts it first, charge point and car must both be made for it, and its devices let power through both ways.
flag-power-both-ways-do = Ask which car and charge point they have in mind; apply to the network operator for it; take bidirectional devices.

flag-report-to-photograph = You have papers for the wiring. Photos of them save the installer some measuring.
flag-report-to-photograph-name = Report to photograph
flag-report-to-photograph-why = It holds the external impedance, the earthing arrangement and what was found, measured by somebody.
flag-report-to-photograph-do = Ask for photos of its first pages before the survey; check its date.

flag-scottish-flat = In Scotland those who share the building agree first, or the factor who manages it.
if-scottish-flat = those who share the building, or its factor, agree
flag-scottish-flat-name = Flat in Scotland
flag-scottish-flat-why = There is no freeholder there: the owners of the building share its walls, stairs and ground, and a factor may act for them.
flag-scottish-flat-do = Ask who the factor is, or for the co-owners’ agreement in writing; ask the council whether a building warrant is wanted.

flag-scottish-planning = In Scotland a charge point needs no planning application up to a certain size. The installer keeps to that.
flag-scottish-planning-name = Scotland’s planning limits
flag-scottish-planning-why = No application is needed up to 0.5 m³, not facing onto a road within 2 m of it, and on a post up to 1.6 m high.
flag-scottish-planning-do = Keep place and size within that, or have them ask the council; it is taken away and made good when no longer needed.

flag-second-charge-point = With two charge points, the network operator has to be asked first.
if-second-charge-point = the network operator agrees to two charge points
flag-second-charge-point-name = A second charge point
flag-second-charge-point-why = Both count at full current unless they share a limit; the network operator is asked first.
flag-second-charge-point-do = Ask what it is and what feeds it; see whether the two can share one limit.

flag-several-boards = You have more than one fuse board. The installer sees which one suits.
flag-several-boards-name = Several boards
flag-several-boards-why = The tails may be split already, which four conductors at the service head can mean too; which board has room is open.
flag-several-boards-do = Ask for a photo of each; see what each feeds and how the tails divide.

flag-shared-car-park = Your parking bay is in a shared car park. Whoever looks after it has to agree first.
if-shared-car-park = whoever looks after the car park agrees
flag-shared-car-park-name = Shared car park
flag-shared-car-park-why = Whoever manages it agrees first; the feed may be a landlord’s, and fire-stopping and the distance to the meter come in.
flag-shared-car-park-do = Ask who manages it, whose supply feeds the bay, and what they allow, before a date.

flag-shared-ground = The way crosses ground you share, or that is not yours. Whoever shares or owns it has to agree.
if-shared-ground = whoever shares or owns the ground agrees
flag-shared-ground-name = Shared or other ground
flag-shared-ground-why = Who shares or owns it agrees first, and to the digging too.
flag-shared-ground-do = Ask for their agreement in writing, with the route named, or find a way over their own ground.

flag-shared-residual-device = The room left in your fuse board may share its safety switch with other things. A box of its own is the usual answer.
flag-shared-residual-device-name = Spare ways behind a shared residual-current device
flag-shared-residual-device-why = A way behind a shared device is not individual protection by the stricter reading, which is taken here; the point is disputed.
flag-shared-residual-device-do = Plan an enclosure of its own; see in the photo whether a way is free ahead of the shared device.

flag-signal-marginal = The Wi-Fi at the parking spot is neither good nor bad. The installer measures it again.
flag-signal-marginal-name = Signal between good and weak
flag-signal-marginal-why = A link that holds today may fail with the door closed or the car in front.
flag-signal-marginal-do = Measure at the spot with the door closed; leave room for a data cable beside the power cable.

flag-split-phase = Your supply is of a kind met less often. The installer looks at it before a date is agreed.
if-split-phase = your supply turns out to be of the usual kind
flag-split-phase-name = Two carriers: split-phase or other
flag-split-phase-why = Neither phases nor rating can be told from the count; the design for one phase may not hold.
flag-split-phase-do = Look at the photo; ask the network operator what the supply is before agreeing a date.

flag-street-parking = Your car stands on the street. A cable may only cross the pavement where the council allows a channel for it.
flag-street-parking-name = Street parking
flag-street-parking-why = A lead trailed across a public footway is refused; an authorised channel is the highway authority’s to grant.
flag-street-parking-do = Tell them so kindly; where their authority grants channels, name that and any grant.

flag-supplier-must-isolate = Your electricity supplier may have to come once to turn the supply off for the work. That can take a few weeks.
if-supplier-must-isolate = somebody allowed to can turn the supply off for the work
flag-supplier-must-isolate-name = Supplier must isolate
flag-supplier-must-isolate-why = Splitting the tails waits for a visit of the supplier or network operator.
flag-supplier-must-isolate-do = Ask the supplier for an isolation or a switch after the meter; agree the date around that visit.

flag-supply-counts-disagree = Two of the things counted at the meter do not fit together. The installer looks at them again with you.
flag-supply-counts-disagree-name = Supply counts disagree
flag-supply-counts-disagree-why = Phases, loop and network process all rest on these counts; neither is asserted.
flag-supply-counts-disagree-do = Look at the photo, or ask for another; settle the counts before anything is designed or priced.

flag-supply-not-counted = What kind of supply your home has is not known yet. The installer finds that out first.
if-supply-not-counted = your supply turns out to be of the usual kind
flag-supply-not-counted-name = Supply not counted
flag-supply-not-counted-why = Phases, loop and service equipment are unknown; a look of yours settles it, or the network operator.
flag-supply-not-counted-do = Look on the survey before a date is agreed; ask for a photo only where a danger is ruled out.

flag-supports-in-a-fire = The cable inside is held by metal clips, so that it stays up in a fire.
flag-supports-in-a-fire-name = Supports that hold in a fire
flag-supports-in-a-fire-why = All wiring is held so that it does not fall early in a fire.
flag-supports-in-a-fire-do = Metal clips or ties along it; plastic trunking alone does not hold.

flag-surge-device-finds-no-gap = There is one free place in your fuse board, and two parts may want it. A small box beside it is the usual answer.
flag-surge-device-finds-no-gap-name = One gap, two devices
flag-surge-device-finds-no-gap-why = The charge point’s own device takes that gap: surge protection would claim it as well.
flag-surge-device-finds-no-gap-do = Price surge protection in a small enclosure beside the board, or free another way; record it if the owner declines.

flag-tails-long = The meter and the fuse board are some way apart. An extra switch near the meter may be needed.
flag-tails-long-name = Long meter tails
flag-tails-long-why = Tails over about 3 m want a switch-fuse near the meter; nothing of the installer’s goes into an outside meter box.
flag-tails-long-do = Look whether there is a switch-fuse; quote one if not, and find a place for it.

flag-thick-wall = The wall is thick. Drilling takes longer.
flag-thick-wall-name = Thick wall to drill
flag-thick-wall-why = Old stone or rubble walls take longer drills, more time, and may crumble.
flag-thick-wall-do = Bring a long bit and something to sleeve the hole; look for another way out.

flag-three-phase = Your home may have a stronger kind of supply, called three-phase. That is good to know when choosing.
flag-three-phase-name = Three-phase supply
flag-three-phase-why = A voltage window does not count as open-PEN protection on a three-phase installation; the load lies unevenly on the phases.
flag-three-phase-do = Take an open-PEN measure that suits three phases; put the charge point on the emptiest phase, or fit a three-phase one.

flag-tn-s-may-be-pme = Your earth comes by the cable from the street. As a rule it is given the same extra protection as newer supplies.
flag-tn-s-may-be-pme-name = TN-S may be PME
flag-tn-s-may-be-pme-why = Networks repair separate-earth cables with combined ones: TN-S is treated as PME until confirmed.
flag-tn-s-may-be-pme-do = Plan the open-PEN measure all the same; ask the network operator if it would be left out.

flag-tt-electrode = Your home has its own earth rod. The installer tests it before the charge point is planned around it.
if-tt-electrode = your earth rod passes its test
flag-tt-electrode-name = Electrode to be proved
flag-tt-electrode-why = Protection rests on the electrode and the residual-current device; an electrode can dry out or corrode.
flag-tt-electrode-do = Measure the electrode and prove the residual-current device; no open-PEN device is needed. An outbuilding may want its own.

flag-type-ac-upstream = The safety switch in your fuse board is of an older type. The installer allows for that.
flag-type-ac-upstream-name = Type AC upstream
flag-type-ac-upstream-why = A direct current from the car’s side may blind a Type AC device, and with it all that it protects.
flag-type-ac-upstream-do = Feed the charge point from ahead of it, or change the device; none of Type AC stays upstream.

flag-weak-signal = The Wi-Fi is weak where the charge point would go. A data cable beside the power cable is the usual answer.
flag-weak-signal-name = Weak signal at the spot
flag-weak-signal-why = Load sensing, off-peak charging and updates want a link that holds.
flag-weak-signal-do = Run a data cable beside the power cable, by way of a box by the board, all the way to the router; count it. Mobile data in its place only where charge point and spot have it.

flag-which-board = There is more than one fuse board, and which of them suits is not settled. The installer looks.
if-which-board = it is clear which of the fuse boards suits
flag-which-board-name = Which board is not known
flag-which-board-why = Room, devices and feed of the board that the charge point hangs on decide the work; those of another say nothing of it.
flag-which-board-do = Look at each board, or ask for photos of them; choose one, and record what it has.
