/** Under a table of sums with cloth in it: what its figures are of. The area on the shell times the weight of the cloth is not its mass. */
export const CLOTH_NOTE =
  "  Cloth: m² as it lies on the shell, mass of its pieces as cut, laid flat;\n" +
  "  length that of its pieces added up, not of roll.\n";
