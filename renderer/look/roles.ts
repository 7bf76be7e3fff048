/** The colours that tokens.css gives these roles at an element of the page. Throws for a role that it does not know. */
export function readRoles<Role extends string>(
  element: Element,
  roles: readonly Role[],
): Record<Role, string> {
  const given = getComputedStyle(element);
  const colours = roles.map((role) => {
    const value = given.getPropertyValue(`--${role}`).trim();
    if (value === "") throw new Error(`tokens.css gives no colour --${role}.`);
    return [role, value];
  });
  return Object.fromEntries(colours);
}
