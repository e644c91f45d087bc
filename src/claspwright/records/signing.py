"""Putting a name under an entry: the signature holds the hash of what was signed.

It is an entry of the chain like any other, so that neither it nor what it is under can be changed
unseen. It is no cryptographic signature: no key stands behind the name, which is as the caller
told it. Whoever must prove who signed lets the people sign in on their own, or signs the head of
the chain with a key outside.
"""

from __future__ import annotations

from claspwright.base import InputError
from claspwright.records.register import Register, Signed


def sign(register: Register, subject: str, meaning: str, signed: Signed, *, role: str = "") -> int:
    """Sign how a thing stands now, such as `revision:C-1/1`.

    Args:
        register: the open register.
        subject: kind and id of the thing.
        meaning: what the signature says, such as "released".
        signed: who and when.
        role: in which office.

    Returns:
        The number of the entry.

    Raises:
        InputError: there is no such thing.
    """
    kind, _, id_ = subject.partition(":")
    history = register.history(kind, id_)
    if not history:
        raise InputError("this is not in the register", place=subject)
    latest = history[-1]
    body = {"about": subject, "hash": latest.hash, "meaning": meaning}
    name = f"{kind}/{id_}/{latest.seq}/{signed.by}"[:120]
    return register.add("signature", name, {**body, "role": role} if role else body, signed)
