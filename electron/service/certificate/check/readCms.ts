/** Takes a signature value apart. Whether it is what it claims is found by building it again and comparing bytes. */
import { algorithmIdentifier, type Chain, type CmsParts, certificateNames, oid } from '../sign/cms.ts';
import { type DerElement, der, derOid, readDer, readOne, tags } from '../sign/der.ts';

const nothing = new Uint8Array(0);

/** What a value claims; `undefined` when it has not the shape this program writes. */
export function readCms(hole: Uint8Array): CmsParts | undefined {
  const outer = readOne(hole, 0);
  const content = members(outer)[1];
  const signedData = members(content)[0];
  const [, , , certificates, signers] = members(signedData);
  const [, signerName, , attributes, algorithm, signature] = members(members(signers)[0]);
  if (signerName === undefined || algorithm === undefined || signature?.tag !== tags.octetString)
    return undefined;
  const chain = orderChain(
    members(certificates).map((element) => element.whole),
    signerName.whole,
  );
  const digest = digestIn(members(attributes));
  if (chain === undefined || digest === undefined) return undefined;
  const isRsa = Buffer.compare(algorithm.whole, algorithmIdentifier('rsa')) === 0;
  return { chain, digest, algorithm: isRsa ? 'rsa' : 'ecdsa', signature: signature.content };
}

function members(element: DerElement | undefined): readonly DerElement[] {
  return readDer(element?.content ?? nothing) ?? [];
}

/** The signer's certificate first; the others as they stand, which is the order they are named in when signed. */
function orderChain(certificates: readonly Uint8Array[], signerName: Uint8Array): Chain | undefined {
  const isSigner = (certificate: Uint8Array) => {
    const names = certificateNames(certificate);
    if (names === undefined) return false;
    const name = der(tags.sequence, names.issuer, names.serialNumber);
    return Buffer.compare(name, signerName) === 0;
  };
  const leaf = certificates.find(isSigner);
  if (leaf === undefined) return undefined;
  return [leaf, ...certificates.filter((certificate) => certificate !== leaf)];
}

function digestIn(attributes: readonly DerElement[]): Uint8Array | undefined {
  const type = derOid(oid.messageDigest);
  for (const attribute of attributes) {
    const [name, values] = members(attribute);
    if (name === undefined || Buffer.compare(name.whole, type) !== 0) continue;
    const value = members(values)[0];
    return value?.tag === tags.octetString ? value.content : undefined;
  }
  return undefined;
}
