// The labels of content.json with pdfkit and qrcode, as somebody would write it who needs them today:
//   node pdfkit.js content.json out.pdf
const fs = require('fs');
const PDFDocument = require('pdfkit');
const QRCode = require('qrcode');

const [contentPath, outPath] = process.argv.slice(2);
const content = JSON.parse(fs.readFileSync(contentPath, 'utf8'));
const mm = 72 / 25.4;
const { page, label, lines, fonts, labels } = content;
const perPage = label.columns * label.rows;

const doc = new PDFDocument({ size: [page.width * mm, page.height * mm], margin: 0, autoFirstPage: false });
doc.pipe(fs.createWriteStream(outPath));
doc.registerFont('regular', fonts.regular);
doc.registerFont('bold', fonts.bold);

function code(text, left, top, side) {
  const { modules } = QRCode.create(text, { errorCorrectionLevel: 'M' });
  const module = side / modules.size;
  for (let row = 0; row < modules.size; ++row) {
    for (let column = 0; column < modules.size; ++column) {
      const start = column;
      while (column < modules.size && modules.get(row, column)) ++column;
      if (column > start) doc.rect(left + start * module, top + row * module, (column - start) * module, module);
    }
  }
  doc.fill('black');
}

labels.forEach((one, index) => {
  const at = index % perPage;
  if (at === 0) doc.addPage();
  const left = (label.left + (at % label.columns) * label.across) * mm;
  const top = (label.top + Math.floor(at / label.columns) * label.down) * mm;
  const width = label.width * mm;
  const band = 9 * mm;
  doc.rect(left, top, width, band).fill('black');
  doc.fillColor('white').font('bold').fontSize(18);
  doc.text(content.signal, left + 6, top + 2, { lineBreak: false });
  doc.text(one.id, left + width - 70, top + 2, { lineBreak: false });
  doc.fillColor('black').font('regular').fontSize(6);
  lines.forEach((line, i) => doc.text(line, left + 34 * mm, top + band + 2 + i * 7, { lineBreak: false }));
  code(one.code, left + 4 * mm, top + band + 4 * mm, 26 * mm);
});
doc.end();
