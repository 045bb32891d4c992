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
refused-title = It was not taken
refused-back = Go back in your browser: what you filled in should still be there. You can also ring { $telephone }.
others-title = Other fields of the form:
