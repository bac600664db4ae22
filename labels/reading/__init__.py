"""Reading labels: pictures, videos and cameras in, label numbers with their places out.

A picture, looked up::

    from labels.reading.reader import read_picture

    for reading in read_picture("drawer.jpg"):
        print(reading.number, reading.corners)

A camera, acted on only when two looks agree::

    from labels.reading.acceptance import Acceptance, Act, Ask
    from labels.reading.reader import Reader
    from labels.reading.sources import camera

    acceptance = Acceptance(exists=lambda number: number in stock)
    with Reader() as reader, camera(0) as frames:
        for frame in frames:
            match acceptance.frame(reader.read(frame)):
                case Act(number):
                    put_away(number)
                case Ask(numbers):
                    put_away(acceptance.choose(ask_which(numbers)).number)

`sources.pictures` and `sources.video` stand in for `camera`; `sources.keys` gives the lines of a
keyboard-wedge scanner. `errors` has everything that can go wrong, `verify` grades a print.
Importing this package loads no heavy library; `read_picture` and `Reader` do when first used.
"""
