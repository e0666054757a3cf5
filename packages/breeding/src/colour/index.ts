export { type ColourDifference, colourDifference } from './ciede2000.ts';
