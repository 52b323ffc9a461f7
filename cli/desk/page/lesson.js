import { h } from "./dom.js"; export const makeLesson = () => h('p');
