# What the service itself says to a browser that sent a plain form, in English.

sent-title = It has arrived
sent-reference = Your reference: { $reference }
sent-text = { $installer } has your enquiry. If you ring { $telephone }, read out this reference.
sent-deletion = You can take it back: keep this link, it deletes what you sent.
sent-deletion-link = Delete what I sent
sent-deletion-code = The link holds this code, which its page also takes by hand: { $code }
deletion-title = Delete what was sent
deletion-text = This deletes the enquiry to { $installer } with its photos, for good. The code was shown with the reference when it was sent; from the link it is filled in already. If you have lost it, ring { $telephone }.
deletion-code = Code
deletion-button = Delete it
deleted-title = It is deleted
deleted-text = The enquiry { $reference } is deleted with its photos.
deleted-copies = { $installer } may have read it already, and may have a copy in their mail or notes: ring { $telephone } to ask.
deleted-kept = One thing stays: your enquiry became a job ({ $what }), and { $installer } has to keep records of it by law. Name, address, postcode, reference and the day of the enquiry are kept apart until { $day } and then deleted; photos, answers, telephone number and e-mail address are gone. To ask about it, ring { $telephone }.
became-quotation = a quotation that was accepted
became-invoice = an invoice
became-certificate = a certificate of the installation
refused-title = It was not taken
refused-back = Go back in your browser: what you filled in should still be there. You can also ring { $telephone }.
robot = Perhaps a robot’s: a field that people do not see was filled in.
robot-fast = Perhaps a robot’s: it was sent { $seconds ->
    [one] { $seconds } second
   *[other] { $seconds } seconds
 } after the form was begun.
others-title = Other fields of the form:

# The mail that tells the installer of an enquiry. The first lines are read on a lock screen.
mail-subject = { $what }, { $place } ({ $reference })
mail-subject-no-place = { $what } ({ $reference })
mail-class = { $class }: { $flags }
mail-nothing-flagged = nothing flagged
mail-price = { $low } to { $high } with VAT, an estimate before a survey
mail-price-line = Price: { $price }
mail-price-none = no price yet
mail-price-invented = (invented prices)
mail-reach = Best reached: { $reach }
mail-reach-any = however it suits
mail-when = Good time: { $when }
mail-photos = { $number ->
    [0] no photos
    [one] 1 photo
   *[other] { $number } photos
 }
mail-last = { $reference }, { $photos }, received { $day }
mail-attached = All that was answered is in enquiry.txt, and the record itself in enquiry.json. Photos are on your own page.
mail-answer = An answer to this mail goes to the homeowner.
mail-no-answer = No e-mail address was given that can be answered: ring, or write to where they say.
mail-not-a-quotation = Every price here is an estimate before a survey, not a quotation.
mail-not-assessed = Nothing could be worked out: look at the answers.
mail-not-assessed-short = Not assessed
mail-flags = Flags, the gravest first:

# The mail that tells the installer that further enquiries are asked to come later.
mail-full-subject = As many enquiries as a day takes have come: { $number }
mail-full-text = As many enquiries have come within 24 hours as your setup takes: { $number }. Further ones are told to come later, and the forms try again by themselves: nobody is turned away for good.
mail-full-what = If people sent them, raise enquiries_a_day in your setup. If a robot did, delete what it sent: that makes room at once.

# The mail that tells the installer of what a homeowner added later.
mail-added = Added
mail-added-danger = Danger reported
mail-added-title = Added to { $reference } by the homeowner:
mail-added-danger-line = A danger was reported. Ring first.
mail-added-photos-parking = Photos of where the car stands: { $number }
mail-added-photos-meter = Photos at the meter: { $number }
mail-added-photos-board = Photos at the fuse board: { $number }
mail-added-photos-pipes = Photos of where pipes come in: { $number }
mail-added-photos-other = Other photos: { $number }
mail-added-where = All of it is on your own page, where the enquiry counts as not handled again. A photo may still be on its way.

# The copy that a homeowner ticked for. It holds nothing that anybody typed.
copy-subject = Copy of your enquiry ({ $reference })
copy-why = This is a copy of an enquiry sent to { $installer }; a box for it was ticked when it was sent. The mail was sent automatically. A reply goes to { $installer }.
copy-reference = Reference: { $reference }. Received { $received }, with { $photos ->
    [0] no photos
    [one] 1 photo
   *[other] { $photos } photos
 }. If you ring { $telephone }, read out the reference.
copy-price = Price as it was shown: { $price }.
copy-price-band = { $low } to { $high } with VAT, an estimate before a survey and not a quotation
copy-price-from = from { $low } with VAT if all that is not known turns out well, and often more; an estimate before a survey and not a quotation
copy-price-none = none before somebody has looked
copy-answers = What was answered:
copy-kept = { $installer } keeps the enquiry until { $day } and then deletes it. The page on which it was sent has a link that deletes it earlier, or ring { $telephone }.
copy-not-yours = If you sent nothing, somebody typed your address by mistake: nothing more comes, and there is nothing to do.

mail-test-subject = Test mail from presurvey
mail-test-text = This is a test. Enquiries for { $installer } will be mailed to this address.
