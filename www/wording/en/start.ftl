# What the page's own script says before the homeowner's program is there, in English. Voice as in form.ftl.

unnamed = the installer
begun-title = Your answers are still here
begun-text = You began this form on this device before. What you filled in is kept.
begun-go-on = Go on where you were
begun-again = Start again
begun-clear = Clear all answers and photos
waiting = One moment, please. The next step is on its way.
absent = The next step could not be loaded: there seems to be no connection just now. What you have answered stays here, and the form goes on by itself when the connection is back.
absent-try = Try again
