/** The embedded fonts and the drawer of scenes: the same for every certificate. */
import { readFileSync } from 'node:fs';
import { drawScene } from '../certificate/drawScene.ts';
import type { RenderParts } from '../certificate/render/renderCertificate.ts';

// This folder lies as deep as the built file does: the path holds in both.
const font = (name: string) => readFileSync(new URL(`../../../assets/fonts/${name}`, import.meta.url));

export const renderParts: RenderParts = {
  fonts: { regular: font('DejaVuSans.ttf'), bold: font('DejaVuSans-Bold.ttf') },
  drawScene,
};
