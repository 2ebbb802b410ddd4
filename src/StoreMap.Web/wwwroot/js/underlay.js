// Pictures under the plan: made plain and of a size that a tablet bears, and straightened dot by dot.
const mostBytes = 40 << 20;
const longestSide = 2400;

// The file chosen in an input as a picture of dots; scripts of an SVG don't run in a picture.
export async function prepare(input) {
  const place = document.getElementById(input);
  const file = place?.files[0];
  if (!file) return JSON.stringify({ wrong: 'No picture was chosen.' });
  const address = URL.createObjectURL(file);
  try {
    if (file.size > mostBytes) return JSON.stringify({ wrong: 'The picture is larger than 40 MiB.' });
    const picture = await load(address);
    const scale = Math.min(1, longestSide / Math.max(picture.naturalWidth, picture.naturalHeight));
    const canvas = canvasOf(Math.max(1, Math.round(picture.naturalWidth * scale)), Math.max(1, Math.round(picture.naturalHeight * scale)));
    const ink = canvas.getContext('2d');
    ink.fillStyle = '#fff';
    ink.fillRect(0, 0, canvas.width, canvas.height);
    ink.drawImage(picture, 0, 0, canvas.width, canvas.height);
    return JSON.stringify({ picture: canvas.toDataURL('image/jpeg', 0.85), across: canvas.width, down: canvas.height });
  } catch {
    return JSON.stringify({ wrong: 'That file is no picture that this browser can open. Choose a PNG, JPEG or SVG file.' });
  } finally {
    URL.revokeObjectURL(address);
    place.value = '';
  }
}

// Draws a picture anew, each dot from where a perspective map (nine numbers, row by row, from new dots to old) finds it.
export async function warp(address, m, across, down) {
  const picture = await load(address);
  const [w, h] = [picture.naturalWidth, picture.naturalHeight];
  const source = canvasOf(w, h).getContext('2d');
  source.drawImage(picture, 0, 0);
  const from = new Uint32Array(source.getImageData(0, 0, w, h).data.buffer);
  const canvas = canvasOf(across, down);
  const ink = canvas.getContext('2d');
  const made = ink.createImageData(across, down);
  const to = new Uint32Array(made.data.buffer).fill(0xffffffff);
  for (let y = 0; y < down; y++) {
    for (let x = 0; x < across; x++) {
      const [u, v] = [x + 0.5, y + 0.5];
      const z = m[6] * u + m[7] * v + m[8];
      const [i, j] = [Math.floor((m[0] * u + m[1] * v + m[2]) / z), Math.floor((m[3] * u + m[4] * v + m[5]) / z)];
      if (i >= 0 && i < w && j >= 0 && j < h) to[y * across + x] = from[j * w + i];
    }
  }
  ink.putImageData(made, 0, 0);
  return canvas.toDataURL('image/jpeg', 0.85);
}

async function load(address) {
  const picture = new Image();
  picture.src = address;
  await picture.decode();
  if (!picture.naturalWidth) throw new Error('no size');
  return picture;
}

function canvasOf(width, height) {
  return Object.assign(document.createElement('canvas'), { width, height });
}
