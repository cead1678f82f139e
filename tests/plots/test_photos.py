"""The traps of photo files: what is taken is upright, small and the picture alone; the rest is named."""

from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw

from plots.photos import IMAGE_SIDE, MAX_BYTES, THUMB_SIDE, PhotoError, Problem, picture_of
from tests.pictures import encoded, jpeg

ORIENTATION, GPS, MAKER_NOTE = 0x0112, 0x8825, 0x927C
RED, BLUE, WHITE = (254, 0, 0), (0, 0, 254), (255, 255, 255)


def taken(data: bytes) -> Image.Image:
    return Image.open(BytesIO(picture_of(BytesIO(data)).image))


def close(got: tuple[int, ...], wanted: tuple[int, ...]) -> bool:
    return all(abs(one - other) <= 6 for one, other in zip(got, wanted, strict=True))


def half_red(size: tuple[int, int] = (64, 32)) -> Image.Image:
    """Red on the left, blue on the right."""
    image = Image.new("RGB", size, "blue")
    ImageDraw.Draw(image).rectangle((0, 0, size[0] // 2 - 1, size[1]), fill="red")
    return image


def problem_of(data: bytes) -> Problem:
    with pytest.raises(PhotoError) as caught:
        picture_of(BytesIO(data))
    return caught.value.problem


def test_a_large_photo_becomes_two_small_ones():
    kept = picture_of(BytesIO(jpeg(4000, 2000)))
    assert (kept.width, kept.height) == (IMAGE_SIDE, IMAGE_SIDE // 2)
    assert Image.open(BytesIO(kept.image)).size == (IMAGE_SIDE, IMAGE_SIDE // 2)
    assert Image.open(BytesIO(kept.thumb)).size == (THUMB_SIDE, THUMB_SIDE // 2)


# What is left and right in the file, by the way the telephone was held, stands so when shown upright.
UPRIGHT = {
    1: ((64, 32), (8, 16)), 2: ((64, 32), (56, 16)), 3: ((64, 32), (56, 16)), 4: ((64, 32), (8, 16)),
    5: ((32, 64), (16, 8)), 6: ((32, 64), (16, 8)), 7: ((32, 64), (16, 56)), 8: ((32, 64), (16, 56)),
}  # fmt: skip


def test_photos_stand_upright_however_the_telephone_was_held():
    wrong = {}
    for held, (size, red_at) in UPRIGHT.items():
        exif = Image.Exif()
        exif[ORIENTATION] = held
        shown = taken(encoded(half_red(), "JPEG", exif=exif, quality=95))
        if shown.size != size or not close(shown.getpixel(red_at), RED):
            wrong[held] = shown.size, shown.getpixel(red_at)
    assert wrong == {}


def test_place_camera_comments_and_whatever_else_stay_behind():
    exif = Image.Exif()
    exif[ORIENTATION] = 1
    exif[GPS] = {1: "N", 2: (40.0, 30.0, 0.0)}
    exif.get_ifd(0x8769)[MAKER_NOTE] = b"secret maker note"
    data = jpeg(exif=exif, comment=b"secret comment", icc_profile=b"secret profile", dpi=(72, 72))
    with_text = encoded(Image.new("RGB", (9, 9)), "PNG", exif=exif)
    assert b"secret comment" in data
    for file in (data, data + b"secret tail", with_text):
        kept = picture_of(BytesIO(file))
        for picture in (kept.image, kept.thumb):
            assert b"secret" not in picture
            shown = Image.open(BytesIO(picture))
            assert (dict(shown.getexif()), set(shown.info)) == (
                {},
                {"jfif", "jfif_version", "jfif_unit", "jfif_density", "progressive", "progression"},
            )


def test_every_kind_of_colour_comes_out_as_people_saw_it():
    see_through = Image.new("RGBA", (8, 8), (0, 0, 0, 0))
    palette = half_red().convert("P")
    frames = [Image.new("RGB", (8, 8), colour) for colour in ("red", "blue")]
    shown = {
        "cmyk": (encoded(half_red().convert("CMYK"), "JPEG", quality=95), RED),
        "see-through png": (encoded(see_through, "PNG"), WHITE),
        "see-through webp": (encoded(see_through, "WEBP", lossless=True), WHITE),
        "see-through palette": (encoded(palette, "PNG", transparency=palette.getpixel((0, 0))), WHITE),
        "palette": (encoded(palette, "PNG"), RED),
        "16-bit grey": (encoded(Image.new("I;16", (8, 8), 32768), "PNG"), (128, 128, 128)),
        "black and white": (encoded(Image.new("1", (8, 8), 1), "PNG"), WHITE),
        "moving webp": (encoded(frames[0], "WEBP", save_all=True, append_images=frames[1:]), RED),
        "moving png": (encoded(frames[0], "PNG", save_all=True, append_images=frames[1:]), RED),
        "two in one jpeg": (encoded(frames[0], "MPO", save_all=True, append_images=frames[1:]), RED),
    }
    got = {name: taken(data).getpixel((3, 3)) for name, (data, _colour) in shown.items()}
    assert {name: got[name] for name, (_data, colour) in shown.items() if not close(got[name], colour)} == {}


HEIC = b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"
NO_PHOTOS = {
    "nothing": (b"", Problem.EMPTY),
    "heic": (HEIC + b"x" * 100, Problem.HEIC),
    "gif": (encoded(Image.new("P", (8, 8)), "GIF"), Problem.NO_PHOTO),
    "tiff": (encoded(Image.new("RGB", (8, 8)), "TIFF"), Problem.NO_PHOTO),
    "bmp": (encoded(Image.new("RGB", (8, 8)), "BMP"), Problem.NO_PHOTO),
    "svg": (b'<svg xmlns="http://www.w3.org/2000/svg"/>', Problem.NO_PHOTO),
    "html": (b"<!doctype html><script>alert(1)</script>", Problem.NO_PHOTO),
    "zip": (b"PK\x03\x04" + b"\x00" * 60, Problem.NO_PHOTO),
    "only the beginning": (jpeg(400, 300)[:700], Problem.CUT_OFF),
    "a png cut off": (encoded(half_red((300, 300)), "PNG")[:-60], Problem.CUT_OFF),
    "long": (b"\xff\xd8\xff" + b"\x00" * MAX_BYTES, Problem.TOO_MANY_BYTES),
}


def test_what_is_no_photo_is_refused_with_its_problem():
    wrong = {
        name: problem_of(data) for name, (data, problem) in NO_PHOTOS.items() if problem_of(data) != problem
    }
    assert wrong == {}


@pytest.mark.parametrize("side", [7100, 9500, 14000])  # of which Pillow says nothing, warns, and refuses
def test_a_bomb_is_refused_before_it_is_unpacked(side):
    bomb = encoded(Image.new("1", (side, side)), "PNG")
    assert len(bomb) < 40_000
    assert problem_of(bomb) == Problem.TOO_MANY_PIXELS


SEEDS = [jpeg(comment=b"x"), encoded(half_red((40, 30)), "PNG"), encoded(half_red((40, 30)), "WEBP")]


@settings(max_examples=120, deadline=None)
@given(st.sampled_from(SEEDS), st.lists(st.tuples(st.integers(0, 600), st.integers(0, 255)), max_size=6))
@pytest.mark.filterwarnings("ignore::UserWarning")  # Pillow's own, about a file broken in passing
def test_a_broken_file_is_kept_or_refused_never_a_fault(data, changes):
    broken = bytearray(data)
    for place, value in changes:
        broken[place % len(broken)] = value
    try:
        kept = picture_of(BytesIO(bytes(broken)))
    except PhotoError:
        return
    assert max(kept.width, kept.height) <= IMAGE_SIDE
