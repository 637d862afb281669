/** Share of the map's pixels whose hue is near that of a colour: its red, green and blue stand in the same order and apart. */
export async function colourShare(page, [red, green, blue]) {
  const png = await page.locator('.map-frame').screenshot();
  return page.evaluate(
    async ({ base64, colour }) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const bitmap = await createImageBitmap(new Blob([bytes]));
      const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
      context.drawImage(bitmap, 0, 0);
      const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
      const unit = (values) => {
        const mean = (values[0] + values[1] + values[2]) / 3;
        const apart = values.map((value) => value - mean);
        const length = Math.hypot(...apart);
        return length < 20 ? null : apart.map((value) => value / length);
      };
      const wanted = unit(colour);
      let near = 0;
      for (let at = 0; at < data.length; at += 4) {
        const found = unit([data[at], data[at + 1], data[at + 2]]);
        if (found && found[0] * wanted[0] + found[1] * wanted[1] + found[2] * wanted[2] > 0.9) near += 1;
      }
      return near / (data.length / 4);
    },
    { base64: png.toString('base64'), colour: [red, green, blue] },
  );
}
