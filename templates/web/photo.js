// Makes photos small before they are sent, and leaves on the phone what was in the file besides the
// picture. Without script they are sent as they are; the log does the same with them.
(() => {
  const input = document.getElementById("photo");
  if (!input || !window.createImageBitmap || !window.DataTransfer) return;
  const longest = 1600;
  const shrunk = async (file) => {
    const picture = await createImageBitmap(file);
    const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
    const canvas = document.createElement("canvas");
    canvas.width = Math.max(1, Math.round(picture.width * scale));
    canvas.height = Math.max(1, Math.round(picture.height * scale));
    const pen = canvas.getContext("2d");
    pen.fillStyle = "#fff";
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg", 0.85));
    return blob ? new File([blob], "photo.jpg", { type: "image/jpeg" }) : file;
  };
  let turn = 0;
  input.addEventListener("change", async () => {
    const mine = ++turn;
    const all = new DataTransfer();
    // One after the other: a phone has not memory for many at once. What cannot be read goes as it is.
    for (const file of [...input.files]) all.items.add(await shrunk(file).catch(() => file));
    if (mine === turn) input.files = all.files;
  });
})();
