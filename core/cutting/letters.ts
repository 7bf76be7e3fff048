/** Letters that count the pieces of one ply or strip: 0 is a, 25 z, 26 aa. */
export function letters(index: number): string {
  const rest = Math.floor(index / 26);
  return (rest > 0 ? letters(rest - 1) : "") + String.fromCharCode(97 + (index % 26));
}
