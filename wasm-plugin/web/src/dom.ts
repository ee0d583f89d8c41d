// Making and finding elements.

/** The element with an id that the page is known to have. */
export function byId<T extends HTMLElement = HTMLElement>(id: string): T {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no ${id}`);
  return found as T;
}

type Child = Node | string | null | undefined | false;

/** A new element with attributes and children; `null` and `false` are left out. */
export function make<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Record<string, string | boolean | undefined> = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    element.setAttribute(key, value === true ? "" : value);
  }
  element.append(...children.filter((child): child is Node | string => !!child || child === ""));
  return element;
}
