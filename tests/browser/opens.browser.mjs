import assert from 'node:assert/strict';

export const cases = {
  'the page opens under its name and draws with WebGL': async ({ page, origin }) => {
    const answer = await page.goto(origin);
    assert.equal(answer.status(), 200);
    assert.match(await page.title(), /Rillwright/);
    const drawn = await page.evaluate(() => {
      const canvas = document.createElement('canvas');
      canvas.width = 4;
      canvas.height = 4;
      const gl = canvas.getContext('webgl2', { preserveDrawingBuffer: true });
      if (gl === null) return null;
      gl.clearColor(0, 1, 0, 1);
      gl.clear(gl.COLOR_BUFFER_BIT);
      const pixel = new Uint8Array(4);
      gl.readPixels(1, 1, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel);
      return [...pixel];
    });
    assert.deepEqual(drawn, [0, 255, 0, 255]);
  },
};
