/** Wording of a certificate's check: one sentence for each answer to each question. */
export const CHECK_WORDS = {
  'check.answer.yes': 'yes',
  'check.answer.no': 'no',
  'check.answer.unknown': 'cannot be told here',
  'check.question.signatureIntact': 'Signature intact',
  'check.question.nothingAppended': 'Nothing appended',
  'check.question.signerKnown': 'Signer known',
  'check.question.recordMatches': 'Record inside matches the page',
  'check.question.chainWhole': 'Chain of entries whole',
  'check.question.personalTexts': 'Personal texts as recorded',
  'check.question.numbersRecomputed': 'Numbers recomputed',
  'check.question.editionCurrent': 'Edition current',

  'check.file.notPdf': 'This file is not a PDF.',
  'check.file.truncated': 'The end of this file is missing. Ask the shop to send it again.',
  'check.file.otherWriter':
    'This file was written, or saved again, by another program. Ask the shop for the original.',
  'check.file.damaged': 'This file is damaged at byte {offset}: {problem}.',
  'check.needsSignature': 'Not looked at, because the signature does not hold.',
  'check.needsWhole': 'Not looked at, because something was added to the file.',
  'check.newerEdition':
    'This certificate was made by a newer edition of the program. Check it with that edition.',

  'check.signature.intact': 'Not one signed byte has changed since {moment}, the time the signer states.',
  'check.signature.none': 'This file carries no signature.',
  'check.signature.content': 'The content was changed after signing.',
  'check.signature.block': 'The signature itself was changed, or was made by another program.',
  'check.signature.ranges': 'The signature does not cover the whole file.',
  'check.appended.nothing': 'The file ends where the signature ends.',
  'check.appended.bytes': '{count} bytes were added after signing.',

  'check.signer.known': '{name}, shop root {fingerprint}, which is trusted here.',
  'check.signer.compare':
    '{name}. Compare this shop root fingerprint with the one the shop gives you: {fingerprint}',
  'check.signer.stranger': '{name}, shop root {fingerprint}, which is not trusted here.',
  'check.signer.chain': 'The certificate of {name} was not properly issued by a shop root.',
  'check.signer.time': 'The certificate of {name} did not hold at {moment}.',

  'check.record.matches':
    'The attached record has the digest that is printed and held by the QR code: {digest}',
  'check.record.missing': 'No record is attached.',
  'check.record.damaged': 'The attached record cannot be read.',
  'check.record.printed': 'The attached record has another digest than the one printed. Attached: {digest}',
  'check.record.qr':
    'The attached record has another digest than the one the QR code holds. Attached: {digest}',

  'check.chain.whole': 'All {count} entries are there, each in its place and unchanged.',
  'check.chain.empty': 'The record holds no entries.',
  'check.chain.broken': 'The chain of entries is broken at entry {seq}.',

  'check.personal.match': 'All {count} personal texts of this copy are the ones that were recorded.',
  'check.personal.differ': 'A personal text of this copy is not the one that was recorded: {id}',

  'check.numbers.confirmed': 'All {count} printed numbers follow from the readings.',
  'check.numbers.differ':
    '{count} printed numbers do not follow from the readings. First: {id}, printed {printed}, recomputed {recomputed}',
  'check.numbers.notHere': 'The numbers were not recomputed here.',
  'check.numbers.failed': 'The readings in the record cannot be solved again: {problem}',

  'check.edition.current': 'Edition {edition} is the current one.',
  'check.edition.superseded': 'Edition {edition} was replaced by edition {current}.',
  'check.edition.notHere':
    'Only the shop that issued it can say whether edition {edition} is the current one.',
} as const;
