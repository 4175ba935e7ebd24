/** The usual caution of health pages for musicians; shown wherever the program speaks of the body. */
export const CAUTION =
  'Stop on pain, numbness or tingling, and see a licensed clinician or your teacher; this program gives no ' +
  'medical advice.';
