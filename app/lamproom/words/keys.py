"""Sentences of the room 'keys': codes, keys, certificates, the secret of this computer."""

SENTENCES: dict[str, str] = {
    # a code that may not be chosen
    "keys.code_refused": "Choose another code. {reasons}",
    "keys.both": "{first} {rest}",
    "keys.code_short": "It has {length} characters; on this computer a code needs at least {minimum}.",
    "keys.code_long": "It has {length} characters; the longest code is {maximum}.",
    "keys.code_one_character": "It repeats one or two characters only.",
    "keys.code_repeat": "It repeats the same few characters over and over.",
    "keys.code_run": "Its characters follow one another in order, as in 1 2 3 4.",
    "keys.code_date": "It reads as a date. A code must not be a date.",
    "keys.code_common": "It is one of the codes people guess first.",
    "keys.code_personal": "It contains a name, a badge number or another word that belongs to its owner.",
    "keys.code_spaces": "It begins or ends with a space, or holds a character that cannot be seen.",
    "keys.code_same": "The new code is the old one. Choose a different code.",
    "keys.longer_codes": (
        "This computer has no protected key store, so codes need at least {minimum} characters here "
        "(with one: {with_store})."
    ),
    # a code that was typed to sign
    "keys.code_empty": "No code was typed. {name}, type your code.",
    "keys.wrong_left.one": "That is not the code of {name}. {n} try left before a wait.",
    "keys.wrong_left.other": "That is not the code of {name}. {n} tries left before a wait.",
    "keys.wrong_wait": "That is not the code of {name}. Wrong tries: {failures} of {limit}. Next try in {wait}.",
    "keys.wrong_off": "That is not the code of {name}. {off}",
    "keys.wait": (
        "The code of {name} waits after {failures} wrong tries of {limit}. Next try in {wait}. Stop needs no code."
    ),
    "keys.off": (
        "The code of {name} is off after {limit} wrong tries. Two other people with a code on this computer can turn "
        "it on again, each with their own code. Stop needs no code."
    ),
    "keys.off_alone": (
        "The code of {name} is off after {limit} wrong tries. Turning it on again takes two other people with a code "
        "on this computer, and there are not two. Ask {keeper} to enroll one more person. Stop needs no code."
    ),
    "keys.off_alone_keeper": (
        "The code of {name} is off after {limit} wrong tries. Turning it on again takes two other people with a code "
        "on this computer, and there are not two. Use paper permits until a new site is set up. Stop needs no code."
    ),
    "keys.nobody": (
        "{person} has no code on this computer. Ask {keeper}, who keeps this site's authority, to enroll this person."
    ),
    "keys.no_memory": (
        "This computer is short of memory (64 MiB are needed to check a code). Close other programs, then try again. "
        "The try was not counted."
    ),
    # what is kept
    "keys.not_begun": "This site has no authority yet. Set up the site first.",
    "keys.begun": "This site already has its authority, set up {date}. Nothing was changed.",
    "keys.enrolled": "{name} already has a code on this computer. To change it, use 'change code'.",
    "keys.damaged": (
        "The stored key of {holder} is damaged and was not used. Restore the newest backup of this site, or give this "
        "person a new code."
    ),
    "keys.damaged_station": (
        "The stored key of this station is damaged and was not used. Restore the newest backup of this site. "
        "Until then use paper permits."
    ),
    "keys.damaged_authority": (
        "The key of this site's authority is damaged and was not used. Restore the newest backup of this site. "
        "People who have a code go on signing; nobody can be enrolled until then."
    ),
    "keys.other_computer": (
        "The key of {holder} was made on another computer and opens only there. Use that computer, or enroll "
        "this person on this one."
    ),
    "keys.other_computer_station": (
        "This site's station key was made on another computer and opens only there. Open the site on that computer. "
        "Until then use paper permits."
    ),
    "keys.other_computer_authority": (
        "The key of this site's authority was made on another computer and opens only there. Use that computer to "
        "enroll people."
    ),
    "keys.certificate_ended": (
        "The certificate of {name} ended on {date}. Ask {keeper}, who keeps this site's authority, to renew it here. "
        "The code stays the same."
    ),
    "keys.certificate_early": (
        "The certificate of {name} begins on {date}, and the clock of this computer reads {now}. Set the clock right."
    ),
    "keys.certificate_foreign": (
        "The certificate of {name} was not issued by this site's authority, so this key signs nothing here. "
        "Restore the newest backup of this site, or enroll {name} again."
    ),
    "keys.unknown_key": (
        "No certificate is known here for the key {key}. The origin of what it signed is not confirmed."
    ),
    "keys.no_name": "A person or site needs a name before it can have a certificate. Fill in the name.",
    # two people
    "keys.two_people": "Two other people must give their codes: not {name}, and not the same person twice.",
    "keys.keeper_code_kept": (
        "{name} keeps this site's authority, and only that code opens it: nobody can give {name} a new code. "
        "{name} can change the code with the old one."
    ),
    # the secret of this computer
    "keys.device_damaged": (
        "The file {file} holds the secret of this computer and is damaged. It was left as it is. Put this file back "
        "from a backup of this computer; without it the codes made here open nothing."
    ),
    "keys.device_unreadable": (
        "The file {file} cannot be read ({cause}). Give your account the right to read it, then start again."
    ),
    "keys.device_unwritable": (
        "The secret of this computer cannot be stored in {folder} ({cause}). Make room or give your account the right "
        "to write there, then start again."
    ),
    "keys.device_store_silent": (
        "The secret of this computer is in the system's key store, and the store does not give it ({cause}). "
        "Sign in to this computer as usual or unlock the key store, then start again."
    ),
    "keys.device_store_other": (
        "The system's key store gives another secret than the one the codes of this computer were made with. "
        "Sign in with the account that set up this site, then start again."
    ),
}
