import { h } from "./dom.js"; export const makeSeason = () => h('p');
