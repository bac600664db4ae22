"""The bench page: the day's work in a browser, on the laptop at the bench and the phone in hand.

`app` puts the application together, `guard` keeps strangers out, `server` serves it; a module of
`rooms` for each room of the page parses what was sent, calls one function of the workshop and
shows what it returned, as the command line does.
"""
