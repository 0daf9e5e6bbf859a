"""The class folder, read as spreadsheets and editors save it."""

from datetime import date
from pathlib import Path

import pytest

from gardenlib import InputProblem, class_folder
from gardenlib.class_folder import month_day

TOML = 'title = "Test class"\nlanguages = ["en"]\nunits = "us"\ncrops = ["pea", "tomato"]\n'


@pytest.fixture
def folder(tmp_path):
    """Make the smallest class folder."""
    (tmp_path / "class.toml").write_text(TOML)
    (tmp_path / "sites.csv").write_text("site,latitude\nHill,40.5\n")
    return tmp_path


def _problems(folder):
    return [str(problem) for problem in class_folder.survey(folder)[1].problems]


# ---- what a class is -----------------------------------------------------------------------


def test_the_smallest_class_has_one_site(folder):
    """Four settings and one site are a class; what is not given is empty, both switches are off."""
    klass = class_folder.read(folder)
    assert (klass.title, klass.languages, klass.units) == ("Test class", ("en",), "us")
    assert klass.sites["Hill"].latitude == 40.5
    assert klass.sites["Hill"].threshold_f == 32.0
    assert (klass.lime_from_texture, klass.show_scores, klass.invented) == (False, False, False)
    assert [item.crop for item in klass.class_plot.household.eat] == ["pea", "tomato"]


def test_the_demo_class_is_read_whole(demo):
    """Every file of the demo class arrives as values in SI units."""
    klass = class_folder.read(demo)
    site = klass.sites["Pellowby Hollow"]
    assert klass.invented
    assert (site.last_freeze_50, site.last_freeze_10, site.last_freeze_90) == ((4, 29), (5, 13), None)
    assert site.night_offset_c == pytest.approx(-3 / 1.8)
    assert site.station_file.is_file()
    assert (klass.garden_opens, klass.water_off) == ((3, 15), (10, 20))
    assert klass.workdays[0] == date(2027, 4, 3)
    assert [meeting.page for meeting in klass.sessions] == ["01_site_and_zone", "04_sowing_calendar"]
    # 12 ft by 4 ft; 1 ft is 0.3048 m exactly (NIST Special Publication 811, appendix B.8)
    assert (klass.plots["class-bed"].length_m, klass.plots["class-bed"].width_m) == pytest.approx((3.6576, 1.2192))
    assert klass.plots["class-bed"].families[3] == ("Cucurbitaceae", "Asteraceae")
    assert (klass.plots["plot-1"].wheelchair_path, klass.plots["plot-2"].wheelchair_path) == (False, True)
    assert klass.learners["L04"].plot == "class-bed"
    assert klass.crops["okra"].days_from_seed.full.high == 65
    assert [row.month for row in klass.monthly["Pellowby Hollow"]] == list(range(1, 13))
    assert klass.lead.authority
    assert klass.class_plot.household.people == 2
    assert klass.notes == ()


def test_reading_the_class_loads_no_weather(folder):
    """A class is values only: reading it reads no station file, not even a broken one."""
    (folder / "stations").mkdir()
    (folder / "stations" / "a.csv").write_bytes(b"\x00")
    (folder / "sites.csv").write_text("site,latitude,station_file\nHill,40.5,a.csv\n")
    assert class_folder.read(folder).sites["Hill"].station_file.name == "a.csv"


# ---- days of the year ----------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        *("Apr 5", "5-Apr", "05-Apr", "April 5", "5 April", "apr. 5", "April 5th", "04-05", "4-5"),
        *("2027-04-05", "5-Apr-27", "5 Apr 2027", "Apr-5", "  APR 5 "),
    ],
)
def test_days_are_read_as_spreadsheets_write_them(text):
    """The fifth of April, in the forms that spreadsheets and people write."""
    assert month_day(text, what="the last freeze") == (4, 5)


@pytest.mark.parametrize(
    ("text", "day"), [("4/25", (4, 25)), ("25/4", (4, 25)), ("4/25/2027", (4, 25)), ("4/4", (4, 4))]
)
def test_a_slash_date_that_can_mean_one_day_only_is_read(text, day):
    """Where one number is above 12, or both are equal, a slash date means one day."""
    assert month_day(text, what="the last freeze") == day


def test_a_slash_date_that_may_be_two_days_is_refused_with_both():
    """4/5 may be April 5 or May 4: both are named, and how to write it."""
    with pytest.raises(InputProblem) as refusal:
        month_day("4/5", what="the last freeze")
    assert str(refusal.value) == (
        "the last freeze is 4/5. That may be April 5 or May 4. Write the month in letters, as Apr 5."
    )


@pytest.mark.parametrize("text", ["", "Feb 30", "13-04", "25", "soon", "Ap 5", "31/13", "April", "0-0", "Jun 31"])
def test_what_is_no_day_of_the_year_is_refused(text):
    """Text that is no day of the year is named with its mend."""
    with pytest.raises(InputProblem, match="no day of the year"):
        month_day(text, what="the last freeze")


# ---- files as they come --------------------------------------------------------------------

_ROWS = "site,latitude,longitude,elevation_m,last_freeze_50,dates_from\nMürren,46.56,7.9,1650,25-Apr,café\n"


@pytest.mark.parametrize(
    "data",
    [
        _ROWS.encode(),
        _ROWS.encode("utf-8-sig"),
        _ROWS.encode("cp1252"),
        _ROWS.encode("utf-16"),
        _ROWS.replace("\n", "\r\n").encode(),
        _ROWS.replace(",", ";").replace(".", ",").encode(),
        _ROWS.replace(",", "\t").encode(),
        ("\n\n" + _ROWS.replace("\n", ",,,\n") + ",,,,,,,,\n" * 4).encode(),
        _ROWS.replace("site,latitude", "Site , LATITUDE").encode(),
        _ROWS.replace("46.56", '"46,56"').encode(),
    ],
    ids=["plain", "bom", "latin-1", "utf-16", "crlf", "semicolons", "tabs", "trailing", "header", "quoted comma"],
)
def test_sites_are_read_however_they_were_saved(folder, data):
    """Byte order marks, old encodings, semicolons, decimal commas and empty rows change nothing."""
    (folder / "sites.csv").write_bytes(data)
    site = class_folder.read(folder).sites["Mürren"]
    assert (site.latitude, site.longitude, site.elevation_m) == (46.56, 7.9, 1650)
    assert (site.last_freeze_50, site.dates_from) == ((4, 25), "café")


def test_old_letters_are_told(folder):
    """A file that is not UTF-8 is read and a note says so."""
    (folder / "sites.csv").write_bytes(_ROWS.encode("cp1252"))
    assert any("UTF-8" in str(note) for note in class_folder.read(folder).notes)


def test_columns_that_are_not_used_are_told(folder):
    """An extra column is left alone and named in a note."""
    (folder / "sites.csv").write_text("site,latitude,colour\nHill,40.5,green\n")
    notes = [str(note) for note in class_folder.read(folder).notes]
    assert notes == ["sites.csv has columns that are not used here: colour."]


def test_a_place_is_kept_to_two_decimals(folder):
    """More than two decimals are rounded, so that no home address is kept, and a note says so."""
    (folder / "sites.csv").write_text("site,latitude,longitude\nHill,40.51234,-98.76543\n")
    klass = class_folder.read(folder)
    assert (klass.sites["Hill"].latitude, klass.sites["Hill"].longitude) == (40.51, -98.77)
    assert "rounded" in str(klass.notes[0])


# ---- what must be mended -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("file", "text", "says"),
    [
        ("sites.csv", "site,latitude\nHill,95\n", "sites.csv, row 2: latitude is 95. It can be from -90 to 90."),
        ("sites.csv", "site,latitude\n\nHill,north\n", "sites.csv, row 3: latitude is north. Write the number alone"),
        ("sites.csv", "site,latitude\nHill,\n", "sites.csv, row 2: latitude is empty"),
        ("sites.csv", "site,latitude\nHill,FILL-IN\n", "sites.csv, row 2: latitude still says FILL-IN"),
        ("sites.csv", "site,latitude\nHill,40\nHill,41\n", "sites.csv, row 3: site is Hill, which row 2 has already"),
        ("sites.csv", "site,lat\nHill,40\n", "sites.csv has no column latitude"),
        ("sites.csv", "site,latitude,site\nHill,40,b\n", "sites.csv has the column site more than once"),
        ("sites.csv", "site,latitude\nHill,40,spare\n", "sites.csv, row 2: spare stands beyond the last column"),
        ("sites.csv", "site,latitude\n", "sites.csv has no site"),
        ("sites.csv", "", "sites.csv has no column site, latitude"),
        ("sites.csv", "PK\x03\x04 a workbook", "sites.csv is not a plain text file. In the spreadsheet choose Save As"),
        ("sites.csv", "site,latitude\nHi\0ll,40\n", "sites.csv is not a plain text file"),
        ("sites.csv", 'site,latitude,elevation_m\nHill,40,"1,234"\n', "elevation_m is 1,234. Write the number alone"),
        ("sites.csv", "site,latitude,last_freeze_50\nHill,40,4/5\n", "row 2: last_freeze_50 is 4/5. That may be"),
        ("sites.csv", "site,latitude,night_offset_f\nHill,40,-3\n", "row 2: night_offset_reason is empty. Say why"),
        ("sites.csv", "site,latitude,station_file\nHill,40,a.csv\n", "row 2: station_file is a.csv, but the class"),
        ("sites.csv", "site,latitude,station_file\nHill,40,../class.toml\n", "station_file is ../class.toml, but"),
        ("class.toml", TOML + "units =", "class.toml cannot be read"),
        ("class.toml", TOML.replace('"us"', '"feet"'), "class.toml: units is feet. Write one of these: us, metric"),
        ("class.toml", TOML + 'garden_opens = "soon"\n', "class.toml: garden_opens is soon, which is no day"),
        ("class.toml", TOML + 'workdays = ["4/5"]\n', "class.toml: workdays is 4/5. Write year, month and day"),
        ("class.toml", TOML + 'show_scores = "no"\n', "class.toml: show_scores is no. Write one of these: true, false"),
        ("class.toml", TOML + '[lead]\nline = "Wash."\n', "class.toml: lead.authority is empty"),
        ("class.toml", TOML.replace("Test class", "FILL-IN"), "class.toml: title still says FILL-IN"),
        ("class.toml", "", "class.toml: title is empty"),
        ("plots.csv", "plot,length_m,length_ft\na,3,10\n", "plots.csv, row 2: length_ft is 10. Fill in length_m or"),
        ("plots.csv", "plot,kind\na,box\n", "plots.csv, row 2: kind is box. Write one of these: raised, ground"),
        ("plots.csv", "plot\na\na\n", "plots.csv, row 3: plot is a, which row 2 has already"),
        ("learners.csv", "id,display_name\nL1,\n", "learners.csv, row 2: display_name is empty"),
        ("crops.csv", "crop,name\nokra,okra\n", "crops.csv has no column family, hardiness, method, source"),
        (
            "crops.csv",
            "crop,name,family,hardiness,method,source\nokra,okra,Malvaceae,soft,direct,packet\n",
            "crops.csv",
        ),
        (
            "normals_monthly.csv",
            "site,month,mean_high,mean_low,unit,source\nHill,1,40,50,F,x\n",
            "normals_monthly.csv, row 2: mean_low is 50. The mean low cannot be above the mean high, 40.",
        ),
        (
            "normals_monthly.csv",
            "site,month,mean_high,mean_low,unit,source\nHill,1,40,30,F,x\n",
            "normals_monthly.csv has no row for Hill in month 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12",
        ),
        ("words_local.csv", "key,text\nno.such,hello\n", "words_local.csv, row 2: key is no.such. No sentence has"),
        ("words_local.csv", "key,text\nunit.mm,{y} mm\n", "text is {y} mm. Of the names in curly brackets, use only"),
        ("words_local.csv", "key,text\nunit.mm,{x mm\n", "text is {x mm. Of the names in curly brackets, use only"),
    ],
)
def test_what_cannot_be_read_is_named_with_file_row_value_and_mend(folder, file, text, says):
    """Each fault is one sentence that names where it stands and what to do."""
    (folder / file).write_text(text)
    assert any(says in sentence for sentence in _problems(folder)), _problems(folder)
    with pytest.raises(InputProblem):
        class_folder.read(folder)


def test_a_missing_file_and_folder_are_named(folder):
    """A missing file is named with its folder, and a missing folder by its name."""
    (folder / "sites.csv").unlink()
    assert "sites.csv is missing" in _problems(folder)[0]
    with pytest.raises(InputProblem, match="no class folder"):
        class_folder.read(folder / "nowhere")


def test_the_class_s_own_words_are_kept(folder):
    """A class may say a sentence in its own words, with the names that the sentence has."""
    (folder / "words_local.csv").write_text("key,text\nunit.mm,{x} millimetres\n")
    assert class_folder.read(folder).words_local == {"unit.mm": "{x} millimetres"}


def test_normals_are_held_in_celsius(folder):
    """Monthly normals in degrees Fahrenheit are converted, month names are read."""
    names = [f"{date(2001, month, 1):%b}" for month in range(1, 13)]
    rows = "".join(f"Hill,{name},50,32,F,a leaflet\n" for name in names)
    (folder / "normals_monthly.csv").write_text("site,month,mean_high,mean_low,unit,source\n" + rows)
    july = class_folder.read(folder).monthly["Hill"][6]
    # 50 F is 10 C and 32 F is 0 C (NIST Special Publication 811, appendix B.8)
    assert (july.month, july.mean_high_c, july.mean_low_c) == (7, 10.0, 0.0)


def test_a_working_folder_finds_its_class(tmp_path):
    """The class that was named is found first, then the folders class and demo_class beside the pages."""
    assert class_folder.beside(tmp_path) is None
    (tmp_path / "demo_class").mkdir()
    assert class_folder.beside(tmp_path) == tmp_path / "demo_class"
    (tmp_path / "class").mkdir()
    assert class_folder.beside(tmp_path) == tmp_path / "class"
    (tmp_path / ".workbook").mkdir()
    (tmp_path / ".workbook" / "class_folder.txt").write_text("/elsewhere\n")
    assert class_folder.beside(tmp_path) == Path("/elsewhere")
