/*
 * The page that shows all pictures of the gallery.
 */

export interface Picture {
  readonly file: string;
  readonly caption: string;
}

/** A page of its own, to be put beside the pictures. */
export function galleryPage(pictures: readonly Picture[]): string {
  const figures = pictures.map(
    ({ file, caption }) =>
      `<figure><a href="${file}"><img src="${file}" alt="" loading="lazy"></a><figcaption>${escaped(caption)}</figcaption></figure>`,
  );
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>Lanecall: every state of every screen</title>
<style>
  body { display: grid; grid-template-columns: repeat(auto-fill, minmax(420px, 1fr)); gap: 16px; font: 14px sans-serif; }
  figure { margin: 0; }
  img { max-width: 100%; max-height: 420px; border: 1px solid #999; }
</style>
${figures.join('\n')}
</html>
`;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
}
