/** The first run: demo shop or a shop of one’s own. */
export const FIRST_RUN = {
  'first.title': 'Datumline',
  'first.words':
    'Put the target where the vehicle maker wants it, prove it with readings, and hand over a certificate that can be checked.',
  'first.demo': 'Look round first',
  'first.demoWords':
    'An invented shop on a harbour, with invented cars and procedures. Nothing in it is real.',
  'first.openDemo': 'Open the demo shop',
  'first.opening': 'Opening ...',
  'first.own': 'Work with it',
  'first.ownWords': 'Name, one bay, one person, and the key that signs. About two minutes.',
  'first.setUp': 'Set up my shop',
  'first.caution':
    "The vehicle maker's procedure and the law where you work come before anything said here. Moving equipment, lasers and high voltage can hurt people.",
  'setUp.title': 'Set up my shop',
  'setUp.name': 'Name of the shop',
  'setUp.name.hint': 'As it will stand at the head of every certificate',
  'setUp.code': 'Short code',
  'setUp.code.hint': '2 to 6 capitals or digits; starts every certificate number',
  'setUp.address': 'Address',
  'setUp.address.hint': 'Street, place',
  'setUp.bayName': 'First bay',
  'setUp.bayName.hint': 'What people call it',
  'setUp.personName': 'Your name',
  'setUp.personName.hint': 'You work and sign; more people can be added later',
  'setUp.qualification': 'Your qualification',
  'setUp.qualification.hint': 'Printed on the certificate as it stands',
  'setUp.passphrase': 'Passphrase of the signing key',
  'setUp.passphrase.hint': '8 characters or more; nobody can give it to you again',
  'setUp.now': 'Make the key and start',
  'setUp.working': 'Making the key ...',
  'rootKey.title': "The owner's root key",
  'rootKey.words':
    'This file is shown once and kept nowhere on this PC. Save it to a stick or a safe place that is not this PC; it is locked with your passphrase. Without it no second bay can join and no new key can be made.',
  'rootKey.fingerprint': 'Fingerprint, to compare when a certificate is checked elsewhere:',
  'rootKey.save': 'Save {name}',
  'rootKey.done': 'It is saved: start',
} as const;
