export function DrawingOfficeCard() {
  return null;
}
