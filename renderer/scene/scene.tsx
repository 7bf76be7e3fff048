export function Scene() {
  return null;
}
