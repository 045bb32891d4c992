# The plain form, for where the homeowner's program can't run, in English. Voice as in form.ftl.

why = This browser can’t show the rest of the form here, so a few words do instead. They go to { $installer }, who asks for what is missing.
ring = Or ring { $telephone }
title-noscript = Ask { $installer }
why-noscript = Without JavaScript this page can’t ask you step by step, so a few words do instead. They go to { $installer }, who asks for what is missing.
safety = First: have you noticed anything dangerous?
safety-text = If you have noticed any of these, do as it says here before anything else. Please don’t go and look now.
postcode = Postcode
note = What you would like, and what you can see
note-hint = For example: where the car stands, roughly how far that is from the fuse board, whether the home is yours. Only look; touch and open nothing.
photos = Photos
photos-hint = Of the parking spot, the meter and the fuse board, each from a step back; touch and open nothing. Where they were taken and by which phone is left out.
photos-hint-no-look = Of the parking spot alone. Please don’t go to the meter or the fuse board for a photo. Where they were taken and by which phone is left out.
refused = It was not taken. Everything is kept here. Try again, or ring { $telephone }.
sent-text = Your enquiry is with { $installer }, who gets in touch.
kept = Days for which it is kept before it is deleted: { $days }
trap = Leave this empty
delete-text = If you change your mind: this link deletes what you sent. Keep it: it is shown only here.
delete-link = Delete what I sent
