"""Draws the demo's "photos": plain labelled drawings, each marked as invented. Run once; the results are kept beside it.

Needs Pillow (any recent version): python3 draw.py
"""

from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

WIDTH, HEIGHT = 640, 480
HERE = Path(__file__).parent
FONT = "DejaVuSans.ttf"
PAPER, INK, GREY, LIGHT, RED, GREEN = "#f6f3ea", "#22303a", "#8a949b", "#d9dcd8", "#a8442f", "#3f7d4f"


def sheet(caption):
    image = Image.new("RGB", (WIDTH, HEIGHT), PAPER)
    pen = ImageDraw.Draw(image)
    pen.rectangle((0, HEIGHT - 44, WIDTH, HEIGHT), fill=INK)
    pen.text((14, HEIGHT - 34), f"Invented drawing: {caption}", fill=PAPER, font=ImageFont.truetype(FONT, 18))
    return image, pen


def label(pen, at, text, fill=INK, size=16):
    pen.text(at, text, fill=fill, font=ImageFont.truetype(FONT, size))


def save(image, name):
    image.save(HERE / f"{name}.jpg", quality=72, optimize=True)


def drive(name, caption, ground, ground_label, spot):
    image, pen = sheet(caption)
    pen.polygon([(40, 190), (180, 70), (320, 190)], fill=LIGHT, outline=INK)
    pen.rectangle((60, 190, 300, 350), fill="#e6dfce", outline=INK, width=2)
    pen.rectangle((100, 230, 150, 280), fill="white", outline=INK)
    pen.rectangle((210, 240, 260, 350), fill=GREY, outline=INK)
    pen.rectangle((0, 350, WIDTH, HEIGHT - 44), fill=ground)
    label(pen, (20, 400), ground_label)
    pen.rounded_rectangle((370, 290, 590, 370), 22, fill="#7f93a6", outline=INK, width=2)
    pen.rounded_rectangle((420, 245, 545, 300), 18, fill="#a9b8c4", outline=INK, width=2)
    for x in (410, 550):
        pen.ellipse((x - 24, 346, x + 24, 394), fill=INK)
    x, y = spot
    pen.ellipse((x - 12, y - 12, x + 12, y + 12), outline=RED, width=4)
    label(pen, (x - 20, y - 34), "here", RED)
    save(image, name)


def head(name, caption, carriers, conductors, cables=1):
    image, pen = sheet(caption)
    pen.rectangle((60, 30, 580, 420), outline=GREY, width=3)
    pen.rectangle((90, 200, 90 + 70 * carriers + 30, 320), fill="#3b3f42", outline=INK)
    for number in range(carriers):
        pen.rectangle((105 + 70 * number, 215, 160 + 70 * number, 300), fill="#5d6468", outline="black")
    for number in range(cables):
        x = 120 + 50 * number
        pen.line((x, 320, x, 420), fill=INK, width=22)
    label(pen, (210, 380), f"{cables} thick cable{'s' if cables > 1 else ''} from the street")
    pen.rounded_rectangle((380, 90, 550, 240), 10, fill="#eceae4", outline=INK, width=2)
    pen.rectangle((410, 115, 520, 150), fill="#b9c7b0", outline=INK)
    label(pen, (425, 190), "meter")
    for number in range(conductors):
        x, away = 105 + 17 * number, 400 + 17 * number
        # Two go to the meter; what is more leaves the picture.
        path = [(x, 200), (x, 60 + 14 * number), (away, 60 + 14 * number), (away, 90)]
        if number >= 2:
            path = [(x, 200), (x, 120 + 14 * number), (0, 120 + 14 * number)]
        pen.line(path, fill=RED if number % 2 == 0 else "#32598a", width=6)
    label(pen, (160, 335), f"{carriers} carrier{'s' if carriers > 1 else ''}, {conductors} conductors", size=15)
    save(image, name)


def board(name, caption, ways, gaps, buttons, wire=False):
    image, pen = sheet(caption)
    pen.rounded_rectangle((50, 110, 590, 340), 12, fill="#ece9e2" if not wire else "#c9b48c", outline=INK, width=3)
    step = 500 // ways
    for number in range(ways):
        x = 72 + step * number
        if number >= ways - gaps:
            pen.rectangle((x, 170, x + step - 6, 280), outline=GREY, width=2)
            label(pen, (x + 3, 285), "gap", GREY, 12)
            continue
        pen.rectangle((x, 170, x + step - 6, 280), fill="#8b4b3c" if wire else "white", outline=INK, width=2)
        if not wire:
            pen.rectangle((x + 8, 200, x + step - 14, 235), fill=INK)
    for number in range(buttons):
        x = 95 + 3 * step * number
        pen.ellipse((x, 245, x + 16, 261), fill=GREEN)
        label(pen, (x - 8, 128), "test", GREEN, 14)
    save(image, name)


def closed_box():
    image, pen = sheet("outside meter box, door closed")
    pen.rectangle((0, 0, WIDTH, HEIGHT - 44), fill="#c9866b")
    for row in range(0, HEIGHT - 44, 36):
        for column in range(-40, WIDTH, 80):
            pen.rectangle((column + (row // 36 % 2) * 40, row, column + (row // 36 % 2) * 40 + 78, row + 34), outline="#e6d3c6")
    pen.rectangle((210, 90, 430, 370), fill="white", outline=INK, width=3)
    pen.rectangle((0, HEIGHT - 44, WIDTH, HEIGHT), fill=INK)
    label(pen, (14, HEIGHT - 34), "Invented drawing: outside meter box, door closed", PAPER, 18)
    pen.polygon([(320, 180), (300, 230), (318, 230), (306, 275), (344, 218), (322, 218), (338, 180)], fill=GREY)
    label(pen, (268, 320), "door closed")
    save(image, "meter-door")


drive("drive", "drive beside the house", "#c9c6bd", "drive", (300, 260))
drive("drive-paving", "front path and paving to cross", "#b8b2a6", "paving, about 9 m from the door to the kerb side", (600, 330))
drive("drive-lawn", "lawn between house and garage", "#a9c08f", "lawn", (600, 280))
drive("car-park", "bay in a shared car park", "#aeb3b7", "bay 3 of 12", (600, 300))
head("head-plain", "service head and meter", 1, 2)
head("head-four", "service head with four conductors", 1, 4)
head("head-three-two", "three carriers, two conductors", 3, 2)
board("board-spare", "board with two gaps", 10, 2, 2)
board("board-full", "board without a gap", 10, 0, 1)
board("board-wire", "fuse-wire board", 6, 0, 0, wire=True)
closed_box()
