/** A photo that decodes: 32 by 20 pixels, white to grey, made once and kept as text. */
export const PHOTO_WIDTH_PX = 32;
export const PHOTO_HEIGHT_PX = 20;

export const samplePhoto: Uint8Array = Buffer.from(
  [
    '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABQODxIPDRQSEBIXFRQYHjIhHhwcHj0sLiQySUBMS0dARkVQWnNiUFVtVkVGZIhlbXd7',
    'gYKBTmCNl4x9lnN+gXz/2wBDARUXFx4aHjshITt8U0ZTfHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8',
    'fHx8fHx8fHz/wAARCAAUACADASIAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAAAAUE/8QAGRABAAIDAAAAAAAAAAAAAAAAABRh',
    'AhJR/8QAFAEBAAAAAAAAAAAAAAAAAAAAAP/EABQRAQAAAAAAAAAAAAAAAAAAAAD/2gAMAwEAAhEDEQA/ANMeiPSrHoj0CVHoj0qx',
    '6I9Ap6Y8NMeABpjw0x4AP//Z',
  ].join(''),
  'base64',
);
