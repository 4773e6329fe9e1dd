"""The labels of content.json with ReportLab and its own codes, as somebody would write it who needs
them today:  python3 reportlab_labels.py content.json out.pdf"""

import json
import sys

from reportlab.graphics import renderPDF
from reportlab.graphics.barcode.qr import QrCodeWidget
from reportlab.graphics.shapes import Drawing
from reportlab.lib.units import mm
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

content_path, out_path = sys.argv[1:]
with open(content_path, encoding="utf-8") as file:
    content = json.load(file)
page, label = content["page"], content["label"]
per_page = label["columns"] * label["rows"]
pdfmetrics.registerFont(TTFont("regular", content["fonts"]["regular"]))
pdfmetrics.registerFont(TTFont("bold", content["fonts"]["bold"]))
height = page["height"] * mm
canvas = Canvas(out_path, pagesize=(page["width"] * mm, height), pageCompression=1)


def code(text, left, bottom, side):
    widget = QrCodeWidget(text, barLevel="M", barBorder=0)
    x0, y0, x1, y1 = widget.getBounds()
    drawing = Drawing(side, side, transform=[side / (x1 - x0), 0, 0, side / (y1 - y0), 0, 0])
    drawing.add(widget)
    renderPDF.draw(drawing, canvas, left, bottom)


for index, one in enumerate(content["labels"]):
    at = index % per_page
    if at == 0 and index > 0:
        canvas.showPage()
    left = (label["left"] + at % label["columns"] * label["across"]) * mm
    top = height - (label["top"] + at // label["columns"] * label["down"]) * mm
    width, band = label["width"] * mm, 9 * mm
    canvas.setFillGray(0)
    canvas.rect(left, top - band, width, band, stroke=0, fill=1)
    canvas.setFillGray(1)
    canvas.setFont("bold", 18)
    canvas.drawString(left + 6, top - 20, content["signal"])
    canvas.drawString(left + width - 70, top - 20, one["id"])
    canvas.setFillGray(0)
    canvas.setFont("regular", 6)
    for i, line in enumerate(content["lines"]):
        canvas.drawString(left + 34 * mm, top - band - 8 - i * 7, line)
    code(one["code"], left + 4 * mm, top - band - 30 * mm, 26 * mm)
canvas.save()
