// At build time: the desk's style, with the colours of the page to take home, which have one home.
//   page   colours.css: :root { ... }, the same in the dark, the same on paper
//   own    desk.css, whose dark colours stand under [data-look="dark"]
export function styleOf(page, own) {
  const [light, dark, paper, more] = [...page.matchAll(/:root \{([^}]*)\}/g)].map(([, inside]) => inside);
  const ownDark = /:root\[data-look="dark"\] \{([^}]*)\}/.exec(own)?.[1];
  if (!paper || more || !ownDark || !/prefers-color-scheme: dark/.test(page)) throw new Error("colours are not where they were");
  return `:root {${light}}
${own.replace(ownDark, dark + ownDark)}
@media screen and (prefers-color-scheme: dark) { :root[data-look=""] {${dark}${ownDark}} }
@media print { :root, :root[data-look] {${paper} --desk: #fff; color-scheme: light;} }
`;
}
