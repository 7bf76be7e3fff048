import type { WebGLRenderer } from "three";

/** Pixels of the picture for one of the screen. */
const SCALE = 2;

type TakePicture = () => Promise<Blob>;
let taker: TakePicture | null = null;

/** Makes pictures of this scene possible, until the function that it gives is called. `draw` draws it as well as can be. */
export function offerPictures(gl: WebGLRenderer, draw: () => void): () => void {
  const take: TakePicture = () => {
    const before = gl.getPixelRatio();
    gl.setPixelRatio(SCALE);
    draw();
    const picture = onPaper(gl.domElement);
    gl.setPixelRatio(before);
    draw();
    return pngOf(picture);
  };
  taker = take;
  return () => {
    if (taker === take) taker = null;
  };
}

/** The scene as it is seen, on its paper, as PNG of twice the size. Rejects while there is no scene. */
export function takePicture(): Promise<Blob> {
  return taker ? taker() : Promise.reject(new Error("There is no scene to take a picture of."));
}

/** The paper behind the scene is the page's: it is laid under the picture as it lies under the scene. */
function onPaper(drawn: HTMLCanvasElement): HTMLCanvasElement {
  const { width, height } = drawn;
  const picture = document.createElement("canvas");
  picture.width = width;
  picture.height = height;
  const pen = picture.getContext("2d");
  if (!pen) throw new Error("The browser gives no canvas to draw a picture on.");
  const colours = getComputedStyle(document.documentElement);
  const [x, y] = [0.5 * width, 0.42 * height];
  const paper = pen.createRadialGradient(x, y, 0, x, y, Math.hypot(x, height - y));
  paper.addColorStop(0, colours.getPropertyValue("--sheet").trim());
  paper.addColorStop(1, colours.getPropertyValue("--paper-deep").trim());
  pen.fillStyle = paper;
  pen.fillRect(0, 0, width, height);
  pen.drawImage(drawn, 0, 0);
  return picture;
}

function pngOf(picture: HTMLCanvasElement): Promise<Blob> {
  return new Promise((done, fail) => {
    picture.toBlob((blob) => (blob ? done(blob) : fail(new Error("The browser makes no PNG."))), "image/png");
  });
}
