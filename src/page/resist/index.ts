export { type OpenResist, openResist, type PixelRectangle, resistSamples } from './resist.ts';
export { BRUSH_WIDTH } from './stroke.ts';
